// Opens and shrinks a picture here, in her browser, and sends the pixels of the rings she puts on
// it. What is found comes as the page itself, of which the part with the colours is shown.
"use strict";
{
  const LONGEST = 480, RADII = [12, 20, 30, 40, 60], STEP = 4, FURTHER = 24;
  const by = (id) => document.getElementById(id);
  const canvas = by("canvas"), said = by("said"), noPaper = by("no-paper");
  const paint = canvas.getContext("2d", { willReadFrequently: true });
  // Where the rings are, in pixels of the shrunk picture; `at` is where the next one would be.
  const rings = { yarn: null, paper: null };
  let picture = null, at = { x: 0, y: 0 }, size = 3, asking = null;

  by("taking").hidden = false;
  const tapped = () => document.querySelector("input[name=tap]:checked").value;
  const tell = (words) => { said.textContent = words; };

  by("picture").addEventListener("change", async (event) => {
    const file = event.target.files[0];
    if (!file) return;
    let whole;
    try {
      whole = await createImageBitmap(file, { imageOrientation: "from-image" });
    } catch {
      tell("This browser cannot open that file as a picture. Choose a JPEG or PNG.");
      return;
    }
    const scale = Math.min(1, LONGEST / Math.max(whole.width, whole.height));
    canvas.width = Math.max(1, Math.round(whole.width * scale));
    canvas.height = Math.max(1, Math.round(whole.height * scale));
    paint.imageSmoothingQuality = "high";
    paint.drawImage(whole, 0, 0, canvas.width, canvas.height);
    whole.close();
    picture = paint.getImageData(0, 0, canvas.width, canvas.height);
    rings.yarn = rings.paper = null;
    at = { x: Math.round(canvas.width / 2), y: Math.round(canvas.height / 2) };
    document.querySelector("input[name=tap][value=yarn]").checked = true;
    by("tapping").hidden = false;
    noPaper.hidden = by("to-found").hidden = true;
    draw();
    tell("Tap the yarn where it lies in even light.");
    canvas.focus({ preventScroll: true });
  });

  function draw() {
    paint.putImageData(picture, 0, 0);
    for (const [name, ring] of Object.entries(rings)) if (ring) circle(ring, name === "paper" ? [6, 4] : []);
    circle({ ...at, radius: RADII[size] }, [2, 3]);
    paint.fillStyle = "#fff";
    paint.fillRect(at.x - 1.5, at.y - 1.5, 3, 3);
  }

  // A dark line and a light one: one of them shows on any yarn.
  function circle({ x, y, radius }, dashes) {
    for (const [colour, wide] of [["#000", 4], ["#fff", 2]]) {
      paint.beginPath();
      paint.arc(x, y, radius, 0, 2 * Math.PI);
      paint.setLineDash(colour === "#fff" ? dashes : []);
      paint.strokeStyle = colour;
      paint.lineWidth = wide;
      paint.stroke();
    }
  }

  function pixelsIn({ x, y, radius }) {
    const bytes = [];
    for (let row = Math.max(0, y - radius); row <= Math.min(picture.height - 1, y + radius); row++) {
      for (let column = Math.max(0, x - radius); column <= Math.min(picture.width - 1, x + radius); column++) {
        if ((column - x) ** 2 + (row - y) ** 2 > radius ** 2) continue;
        const from = 4 * (row * picture.width + column);
        bytes.push(...picture.data.subarray(from, from + 4));
      }
    }
    return new Blob([new Uint8Array(bytes)], { type: "application/octet-stream" });
  }

  function take() {
    rings[tapped()] = { ...at, radius: RADII[size] };
    noPaper.hidden = !rings.paper;
    draw();
    if (rings.yarn) ask();
    else tell("The paper is marked. Now tap the yarn.");
  }

  async function ask() {
    asking?.abort();
    asking = new AbortController();
    const form = new FormData();
    for (const [name, ring] of Object.entries(rings)) if (ring) form.append(name, pixelsIn(ring), name);
    by("found").setAttribute("aria-busy", "true");
    tell("looking");
    try {
      const answer = await fetch(location.href, { method: "POST", body: form, signal: asking.signal });
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const fresh = page.getElementById("found");
      if (!fresh) throw new Error("no answer");
      show(document.adoptNode(fresh));
    } catch (why) {
      if (why.name === "AbortError") return;
      by("found").removeAttribute("aria-busy");
      tell("stash does not answer. The picture is still here: tap again in a moment.");
    }
  }

  // What she has typed herself stays: its words, and that she looked in daylight.
  function show(fresh) {
    const before = by("colour"), ticked = document.querySelector("[name=daylight]");
    const typed = before.value !== before.defaultValue ? before.value : null;
    by("found").replaceWith(fresh);
    if (typed !== null) by("colour").value = typed;
    if (ticked?.checked && !ticked.defaultChecked) document.querySelector("[name=daylight]").checked = true;
    listenTo(fresh);
    by("to-found").hidden = false;
    const wrong = by("wrong");
    tell(wrong ? wrong.textContent.trim() : `Found: ${[...fresh.querySelectorAll(".patches b")].map((one) => one.textContent).join(", ")}.`
      + (rings.paper ? "" : " If there is white paper in the picture, tap it too: colours come out truer."));
  }

  function listenTo(found) {
    const form = found.querySelector("form[data-live]");
    listen(form);
    const ticks = [...found.querySelectorAll("[data-hex]")];
    for (const tick of ticks) tick.addEventListener("change", () => {
      by("hex").value = ticks.filter((one) => one.checked).map((one) => one.dataset.hex).join("/");
      form.dispatchEvent(new Event("input"));
    });
  }

  function move(x, y) {
    at = { x: Math.min(canvas.width - 1, Math.max(0, Math.round(x))), y: Math.min(canvas.height - 1, Math.max(0, Math.round(y))) };
    draw();
  }

  canvas.addEventListener("click", (event) => {
    const box = canvas.getBoundingClientRect();
    move((event.clientX - box.left) * canvas.width / box.width, (event.clientY - box.top) * canvas.height / box.height);
    take();
  });

  const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  canvas.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Enter") take();
    else if (ways[event.key]) {
      const [right, down] = ways[event.key], step = event.shiftKey ? FURTHER : STEP;
      move(at.x + right * step, at.y + down * step);
      tell(`Ring at ${Math.round(100 * at.x / canvas.width)} % across, ${Math.round(100 * at.y / canvas.height)} % down.`);
    } else return;
    event.preventDefault();
  });

  function resize(by_steps) {
    size = Math.min(RADII.length - 1, Math.max(0, size + by_steps));
    const ring = rings[tapped()];
    if (ring) ring.radius = RADII[size];
    draw();
    if (ring && rings.yarn) ask();
  }
  by("smaller").addEventListener("click", () => resize(-1));
  by("larger").addEventListener("click", () => resize(1));
  noPaper.addEventListener("click", () => {
    rings.paper = null;
    noPaper.hidden = true;
    draw();
    if (rings.yarn) ask();
  });
}
