"""What is kept of a file is good as long as nobody has written to it."""

import sqlite3
from contextlib import closing
from pathlib import Path
from threading import Thread

import pytest

from stash.store.memory import Memory


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "one.db"
    write(path, "CREATE TABLE t (x)")
    return path


def write(path: Path, sql: str) -> None:
    with closing(sqlite3.connect(path)) as db:
        db.execute(sql)
        db.commit()


def test_a_value_is_made_once_while_the_file_is_unchanged(file: Path) -> None:
    memory, made = Memory(file), []
    for _ in range(3):
        memory.renew()
        assert memory.of("a", lambda: made.append(1) or "value") == "value"
    assert made == [1]


def test_it_is_made_anew_after_anybody_wrote(file: Path) -> None:
    memory, made = Memory(file), []
    for count in (1, 2, 3):
        memory.renew()
        memory.of("a", lambda: made.append(1))
        assert len(made) == count
        write(file, f"INSERT INTO t VALUES ({count})")


def test_a_read_by_others_forgets_nothing(file: Path) -> None:
    memory, made = Memory(file), []
    for _ in range(2):
        memory.renew()
        memory.of("a", lambda: made.append(1))
        with closing(sqlite3.connect(file)) as db:
            db.execute("SELECT * FROM t").fetchall()
    assert made == [1]


def test_names_are_kept_apart(file: Path) -> None:
    memory = Memory(file)
    memory.renew()
    assert [memory.of(name, lambda name=name: name) for name in ("a", "b", "a")] == ["a", "b", "a"]


def test_two_who_want_the_same_wait_for_one_another(file: Path) -> None:
    memory, made = Memory(file), []
    memory.renew()
    wanting = [Thread(target=memory.of, args=("a", lambda: made.append(1))) for _ in range(8)]
    for one in wanting:
        one.start()
    for one in wanting:
        one.join()
    assert made == [1]


def test_what_could_not_be_made_is_not_kept(file: Path) -> None:
    memory = Memory(file)
    memory.renew()

    def fails() -> str:
        raise ValueError("not now")

    with pytest.raises(ValueError, match="not now"):
        memory.of("a", fails)
    assert memory.of("a", lambda: "made") == "made"


def test_while_the_file_is_in_use_nothing_that_may_be_old_is_given(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("stash.store.memory.BUSY_WAIT_MS", 20)
    memory, made = Memory(file), []
    for _ in range(2):
        memory.renew()
        memory.of("a", lambda: made.append(1))
    with closing(sqlite3.connect(file, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        memory.renew()
        memory.of("a", lambda: made.append(2))
    memory.renew()
    memory.of("a", lambda: made.append(3))
    assert made == [1, 2, 3]
