"""Where the page listens, what the terminal says of it, and the QR code of its address."""

import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from commands import Maker

from stash.errors import Refusal
from stash.web import serve
from stash.web.qr import qr_svg, qr_text

ADDRESS = "http://192.0.2.14:8470/"


@contextmanager
def served(maker: Maker, *words: str) -> Iterator[list[str]]:
    """What the terminal says until the address stands there."""
    command = [sys.executable, "-m", "stash", "serve", "--no-browser", *words]
    where = {**os.environ, "STASH_FILE": str(maker.file)}
    with subprocess.Popen(command, stderr=subprocess.PIPE, text=True, env=where) as running:
        assert running.stderr
        lines = [running.stderr.readline()]
        lines += [running.stderr.readline() for _ in range(2 if "--share" in words else 0)]
        yield lines
        running.send_signal(signal.SIGINT)
        assert running.wait(10) == 0


def answers(address: str, port: int) -> bool:
    try:
        with socket.create_connection((address, port), 2):
            return True
    except OSError:
        return False


def in_a_network() -> str:
    try:
        return serve.room_address()
    except Refusal:
        pytest.skip("this machine is in no network")


def port_in(line: str) -> int:
    found = re.search(r"http://127\.0\.0\.1:(\d+)/", line)
    assert found, line
    return int(found[1])


def test_without_sharing_nothing_listens_beyond_this_machine(demo: Maker) -> None:
    room = in_a_network()
    with served(demo) as lines:
        port = port_in(lines[0])
        assert answers("127.0.0.1", port)
        assert not answers(room, port)


def test_shared_it_listens_in_the_room_and_says_what_that_means(demo: Maker) -> None:
    room = in_a_network()
    with served(demo, "--share") as (where, meaning, how):
        port = port_in(where)
        assert answers(room, port)
        assert "Anyone on this wifi could read" in meaning
        assert f"On a phone open http://{room}:{port}/" in how
        assert f"http://127.0.0.1:{port}/share" in how
        assert not re.search(r"\b\d{6}\b|\d{3} \d{3}", meaning + how), "the code is on the page"


def test_with_nobody_in_reach_sharing_is_refused_in_one_line(
    demo: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_way(*_: object) -> None:
        raise OSError(101, "Network is unreachable")

    monkeypatch.setattr(socket.socket, "connect", no_way)
    refused = demo("serve", "--share", "--no-browser")
    assert refused.status == 4
    assert "join the wifi" in refused.err
    assert refused.err.count("\n") == 1


def modules(text: str) -> list[str]:
    """The drawn modules of a code in half blocks, row by row: light is drawn."""
    rows = []
    for line in text.splitlines():
        rows.append("".join("1" if sign in "█▀" else "0" for sign in line))
        rows.append("".join("1" if sign in "█▄" else "0" for sign in line))
    return rows


#: The mark in three corners of a code (ISO/IEC 18004, finder pattern), light round it; dark is 0.
FINDER = ("0000000", "0111110", "0100010", "0100010", "0100010", "0111110", "0000000")


def test_the_code_at_the_terminal_has_its_marks_in_three_corners() -> None:
    rows = modules(qr_text(ADDRESS, paint=False))
    size = len(rows[0]) - 4
    assert size == 25, "version 2 holds so short an address at level M"
    corners = {(2, 2), (2, 2 + size - 7), (2 + size - 7, 2)}
    found = {
        (top, left)
        for top in range(len(rows) - 6)
        for left in range(len(rows[0]) - 6)
        if all(rows[top + i][left : left + 7] == FINDER[i] for i in range(7))
    }
    assert found == corners
    assert all(row[:2] == row[-2:] == "11" for row in rows[: size + 4])


def test_paint_is_left_out_where_it_is_not_wanted() -> None:
    assert "\x1b" not in qr_text(ADDRESS, paint=False)
    painted = qr_text(ADDRESS, paint=True)
    assert re.sub(r"\x1b\[[0-9;]*m", "", painted) == qr_text(ADDRESS, paint=False)


def test_the_code_on_the_page_is_dark_on_light_and_has_nothing_inline() -> None:
    drawn = qr_svg(ADDRESS)
    assert not re.search(r"\s(style|on\w+)=|<script|xlink|http", drawn)
    assert 'viewBox="0 0 33 33"' in drawn, "25 modules, and four of quiet on each side"
