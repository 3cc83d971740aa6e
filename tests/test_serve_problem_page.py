"""The page that lists what has to be mended: everything, where it is, and never as markup."""

from __future__ import annotations

import re

from boltside.errors import Problem, ProblemsFound
from boltside.publish import BuildFailed
from boltside.serve.problem_page import problems_page, slip_page, waiting_page

HOSTILE = "<script>alert(1)</script> & \"'"


def problem(line: int, seen: str = "x") -> Problem:
    return Problem(
        code="wrong-type", path="data/a.yaml", line=line, column=3, seen=seen, expected="a number", mend="write one"
    )


def test_every_problem_is_listed_with_its_place_and_mend() -> None:
    page = problems_page(ProblemsFound([problem(7), problem(4), problem(12)]))
    assert re.findall(r'class="place">([^<]+)<', page) == ["data/a.yaml:4:3", "data/a.yaml:7:3", "data/a.yaml:12:3"]
    assert page.count("write one") == 3 and "3 problems in the shop" in page


def test_one_problem_is_one() -> None:
    assert "<title>1 problem in" in problems_page(ProblemsFound([problem(1)]))


def test_words_from_files_are_no_markup() -> None:
    pages = [
        problems_page(ProblemsFound([problem(1, seen=HOSTILE)])),
        problems_page(BuildFailed(HOSTILE)),
        slip_page(HOSTILE),
        waiting_page([HOSTILE]),
    ]
    assert [page for page in pages if "<script" in page or "alert(1)&lt;/script&gt; &amp;" not in page] == []


def test_other_errors_are_shown_line_by_line() -> None:
    page = problems_page(BuildFailed("the site could not be built:\nfirst\n\nsecond"))
    assert page.count("<li>") == 3


def test_the_page_loads_nothing_but_the_servers_own_script_and_style() -> None:
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', waiting_page([]))
    assert policy
    assert policy[1] == "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'"
