"""What file it is, and connections that keep or forget as a whole."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from textwrap import dedent

import pytest
from books import a_book, a_line, add, g, skein

from stash.actions import add as add_action
from stash.actions import check, use
from stash.actions.book import Book, begun_book, open_book
from stash.errors import FileTrouble, NewerFile, NotAStash, Refusal
from stash.measures.mass import grams
from stash.store import engine


@pytest.mark.parametrize(
    "content", [b"a shopping list, in words, longer than a header " * 20, b"\x00" * 4096, b"x"]
)
def test_another_file_is_no_stash_and_stays_as_it_is(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "notes.txt"
    path.write_bytes(content)

    with pytest.raises(NotAStash) as refused:
        open_book(path, begin=True)

    assert refused.value.exit_status == 5
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_no_stash(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE skein (number)")
    before = path.read_bytes()

    with pytest.raises(NotAStash):
        open_book(path, begin=True)

    assert path.read_bytes() == before


def test_a_newer_file_is_refused_and_not_touched(tmp_path: Path) -> None:
    path = a_book(tmp_path).path
    with closing(sqlite3.connect(path)) as newer:
        newer.execute("UPDATE alembic_version SET version_num = '9999'")
        newer.commit()
    before = path.read_bytes()

    with pytest.raises(NewerFile) as refused:
        open_book(path, begin=True)

    assert refused.value.revision == "9999"
    assert path.read_bytes() == before
    assert sorted(tmp_path.iterdir()) == [path]


def test_a_file_that_is_not_there_is_trouble_unless_it_may_be_begun(tmp_path: Path) -> None:
    path = tmp_path / "a folder" / "shelf.stash"

    with pytest.raises(FileTrouble):
        open_book(path)
    assert check.check(open_book(path, begin=True)) == []


@pytest.mark.parametrize(
    "name", ["what?.stash", "50%20.stash", "a#b&c=d.stash", "schön 100%.stash"]
)
def test_a_file_may_have_any_name(tmp_path: Path, name: str) -> None:
    book = open_book(tmp_path / name, begin=True)
    add(book)

    assert [p.name for p in tmp_path.iterdir()] == [name]


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("", "folder_not_a_stash"),
        ("file/shelf.stash", "cannot_be_made"),
        ("x" * 300, "system_error"),
    ],
)
def test_a_path_that_cannot_be_a_file_is_trouble(tmp_path: Path, name: str, kind: str) -> None:
    (tmp_path / "file").write_text("words")

    with pytest.raises(FileTrouble) as refused:
        open_book(tmp_path / name, begin=True)

    assert refused.value.kind == kind


@pytest.mark.parametrize("mode", ["IMMEDIATE", "EXCLUSIVE"])
def test_a_busy_file_is_trouble(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, mode: str) -> None:
    monkeypatch.setattr(engine, "BUSY_WAIT_MS", 20)
    book = a_book(tmp_path)
    with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
        other.execute(f"BEGIN {mode}")
        with pytest.raises(FileTrouble) as refused:
            add(book)
        other.rollback()

    assert refused.value.kind == "busy"
    assert add(book) == 1


@pytest.mark.parametrize(
    ("pragma", "kind"), [("query_only = ON", "read_only"), ("max_page_count = 1", "disk_full")]
)
def test_what_sqlite_complains_of_is_known_by_its_code(
    tmp_path: Path, pragma: str, kind: str
) -> None:
    """The codes are of SQLite's list of result codes (sqlite.org/rescode.html)."""
    book = a_book(tmp_path)

    def fill() -> None:
        with book.file.writing() as db:
            db.exec_driver_sql(f"PRAGMA {pragma}")
            db.exec_driver_sql(
                "INSERT INTO setting (name, value) VALUES ('note', hex(zeroblob(1000000)))"
            )

    with pytest.raises(FileTrouble) as refused:
        fill()

    assert refused.value.kind == kind


def test_reading_waits_for_nobody_who_only_writes(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book)
    with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert skein(book, 1).held == grams(100)


def test_a_locked_file_is_trouble_when_it_is_opened_and_when_it_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(engine, "BUSY_WAIT_MS", 20)
    book = a_book(tmp_path)
    with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(FileTrouble) as opening:
            open_book(book.path)
        with pytest.raises(FileTrouble) as reading:
            check.check(book)

    assert [opening.value.kind, reading.value.kind] == ["busy", "busy"]


def test_a_damaged_file_is_trouble(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add_action.receive(book, [a_line(count=500)])
    whole = bytearray(book.path.read_bytes())
    half = len(whole) // 2
    book.path.write_bytes(whole[:half])

    with pytest.raises(FileTrouble) as refused:
        check.check(open_book(book.path))

    assert refused.value.kind == "damaged"


class Stop(Exception):
    """Something unforeseen."""


def write_and_stop(book: Book) -> None:
    with book.entry("use") as writer:
        use.book_use(writer, writer.skein(1), grams(20), None)
        raise Stop


def test_an_entry_that_breaks_off_leaves_nothing(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book)
    before = book.path.read_bytes()

    with pytest.raises(Stop):
        write_and_stop(book)

    assert book.path.read_bytes() == before
    assert skein(book, 1).held == grams(100)


def run(code: str, *arguments: object) -> subprocess.Popen[str]:
    """Another process at the same file."""
    return subprocess.Popen(
        [sys.executable, "-c", dedent(code), *map(str, arguments)],
        stdout=subprocess.PIPE,
        stdin=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
    )


def test_a_process_killed_in_the_middle_of_an_entry_leaves_nothing(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add_action.receive(book, [a_line(count=300)])
    code = """
        import sys, time
        from pathlib import Path
        from stash.actions.book import open_book
        from stash.actions.use import book_use
        from stash.measures.mass import grams
        with open_book(Path(sys.argv[1])).entry("use") as writer:
            writer.db.exec_driver_sql("PRAGMA cache_size = 1")  # so that it writes before the end
            for number in range(1, 301):
                book_use(writer, writer.skein(number), grams(20), None)
            print("half way", flush=True)
            time.sleep(60)
    """
    worker = run(code, book.path)
    assert worker.stdout
    assert worker.stdout.readline() == "half way\n"
    worker.kill()
    worker.wait()

    again = open_book(book.path)
    assert check.check(again) == []
    assert skein(again, 300).held == grams(100)
    assert use.use(again, "1", g(100)).skein.held == grams(0)


def test_of_two_who_take_the_last_80_g_one_gets_it(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book, left=grams(80))
    code = """
        import sys
        from pathlib import Path
        from stash.actions import use
        from stash.actions.book import open_book
        from stash.errors import NotEnoughYarn
        from stash.measures.mass import grams
        book = open_book(Path(sys.argv[1]))
        print("ready", flush=True)
        sys.stdin.readline()
        try:
            use.use(book, "1", use.Amount("80g", grams(80)))
            print("got it")
        except NotEnoughYarn as told:
            print(told.free)
    """
    both = [run(code, book.path), run(code, book.path)]
    for one in both:
        assert one.stdout
        assert one.stdout.readline() == "ready\n"
    for one in both:
        assert one.stdin
        one.stdin.write("\n")
        one.stdin.flush()
    said = sorted(one.communicate()[0].strip() for one in both)

    assert said == ["0 g", "got it"]
    assert skein(book, 1).held == grams(0)
    assert check.check(book) == []


def test_a_file_made_in_vain_goes_again_with_its_folder(tmp_path: Path) -> None:
    with pytest.raises(Refusal), begun_book(tmp_path / "new" / "shelf.stash") as book:
        add_action.receive(book, [])

    assert list(tmp_path.iterdir()) == []


def test_a_file_in_which_something_was_booked_stays(tmp_path: Path) -> None:
    def add_twice() -> None:
        with begun_book(tmp_path / "shelf.stash") as book:
            add(book)
            add_action.receive(book, [])

    with pytest.raises(Refusal):
        add_twice()
    assert skein(open_book(tmp_path / "shelf.stash"), 1).held == grams(100)
