"""The one file that knows the solver."""

from __future__ import annotations

import pytest

from stash.planning.optimiser.solver import ENDLESS, Effort, Program


def never() -> bool:
    return False


def two_products() -> Program:
    """Most of 3x + 5y with x <= 4, 2y <= 12, 3x + 2y <= 18.

    The opening example of many textbooks of operations research; the answer is 36 at (2, 6), with
    1.5 and 1 for one more unit of the second and third (from memory).
    """
    program = Program(never)
    for high in (4.0, 12.0, 18.0):
        program.row(-ENDLESS, high)
    program.column(3.0, {0: 1.0, 2: 3.0})
    program.column(5.0, {1: 2.0, 2: 2.0})
    return program


def test_the_textbook_example_and_what_its_rows_are_worth() -> None:
    found = two_products().relaxed()

    assert found.done
    assert found.total == pytest.approx(36)
    assert list(found.values) == pytest.approx([2, 6])
    assert list(found.prices) == pytest.approx([0, 1.5, 1])


def test_it_goes_on_when_a_column_comes_or_a_limit_changes() -> None:
    program = two_products()
    program.relaxed()
    program.column(9.0, {0: 1.0}, most=1.0)
    program.limit(1, -ENDLESS, 6.0)
    program.between(1, 0.0, 2.0)

    # 9 for the new one, then 3 of the first (its row) and 2 of the second (its limit)
    assert program.relaxed().total == pytest.approx(9 + 3 * 3 + 5 * 2)


def test_whole_numbers_and_a_bound() -> None:
    """Most of x + y with 2x + 2y <= 7: 3.5 in fractions, 3 in whole numbers."""
    program = Program(never)
    program.row(-ENDLESS, 7.0)
    for _ in range(2):
        program.column(1.0, {0: 2.0})

    found = program.whole(Effort(0.0, 100))

    assert program.relaxed().total == pytest.approx(3.5)
    assert found.values is not None
    assert sum(found.values) == pytest.approx(3)
    assert found.bound == pytest.approx(3)
    assert found.ended


def test_rows_that_contradict_each_other_have_no_answer() -> None:
    program = Program(never)
    program.row(2.0, ENDLESS)
    program.column(1.0, {0: 1.0}, most=1.0)

    assert not program.relaxed().done
    assert program.whole(Effort(0.0, 10)).values is None


def test_it_prints_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    """JSON stands alone on standard output, and the solver likes to introduce itself."""
    two_products().whole(Effort(0.0, 10))

    assert capfd.readouterr() == ("", "")
