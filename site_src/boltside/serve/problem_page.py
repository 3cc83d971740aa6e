"""The page that stands in for every page while something in the shop's files has to be mended, or is being made."""

from __future__ import annotations

import html
from collections.abc import Iterable

from boltside.errors import Problem, ProblemsFound

PAGE = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'">
<title>{title}</title>
</head>
<body>
<main class="boltside-problems">
<h1>{title}</h1>
{body}
</main>
</body>
</html>
"""  # noqa: E501 - one line of HTML
WHAT_HAPPENS = "<p>The shop shows itself here again as soon as the files are saved without these.</p>"


def problems_page(error: Exception) -> str:
    """Every problem with its place, what was seen and expected and how to mend it; other errors line by line."""
    if isinstance(error, ProblemsFound):
        number = sum(problem.severity == "error" for problem in error.problems)
        title = f"{number} problem{'' if number == 1 else 's'} in the shop's files"
        listed = "".join(f"<li>{one_problem(problem)}</li>" for problem in error.problems)
    else:
        title = "The shop can't be shown yet"
        listed = "".join(f"<li>{html.escape(line)}</li>" for line in str(error).splitlines() if line.strip())
    return PAGE.format(title=title, body=f"<ol>{listed}</ol>{WHAT_HAPPENS}")


def one_problem(problem: Problem) -> str:
    """One problem; every word of it may come from a file and is escaped."""
    place = f"{problem.path}:{problem.line}:{problem.column}"
    words = f"{problem.severity} [{problem.code}] seen {problem.seen}; expected {problem.expected}"
    return (
        f'<span class="place">{html.escape(place)}</span> {html.escape(words)} '
        f'<span class="mend">{html.escape(problem.mend)}</span>'
    )


def waiting_page(sentences: Iterable[str]) -> str:
    """A page that says what is being made at the moment."""
    body = "".join(f"<p>{html.escape(sentence)}</p>" for sentence in sentences)
    return PAGE.format(title="One moment", body=body)


def slip_page(traceback_text: str) -> str:
    """A page for an error of Boltside's own, which should not happen; with what is needed to report it."""
    body = (
        "<p>This is an error in Boltside, not in your files. What follows helps to find it.</p>"
        f"<pre>{html.escape(traceback_text)}</pre>"
    )
    return PAGE.format(title="Boltside stumbled", body=body)
