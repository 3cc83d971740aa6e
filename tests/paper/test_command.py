"""`boltside paper`: any size and options of any pattern, mistakes in words, nothing written then."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from boltside.cli import main
from boltside.new.make import make_shop
from boltside.paper import command

ROOT = Path(__file__).parents[2]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("BOLTSIDE_CACHE", str(ROOT / ".cache" / "boltside"))
    monkeypatch.chdir(tmp_path)
    return make_shop(tmp_path / "shop", label="Try")


def test_a_guide_is_written_where_one_stands(shop: Path, printing: None, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["paper", "spoondrift", "--shop", "shop"]) == 0
    place = Path(capsys.readouterr().out.removeprefix("The paper guide is in ").strip())
    assert place.parent == Path() and place.name.startswith("spoondrift-")
    text = "".join(page.extract_text() for page in PdfReader(io.BytesIO(place.read_bytes())).pages)
    assert "Spoondrift" in text and " m" in text and " yd" not in text


def test_inches_and_another_file(shop: Path, printing: None) -> None:
    assert main(["paper", "spoondrift", "--shop", "shop", "--units", "inch", "--out", "mine.pdf"]) == 0
    text = "".join(page.extract_text() for page in PdfReader("mine.pdf").pages)
    assert " yd" in text and " m " not in text


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["spoondrft"], "did you mean 'spoondrift'?"),
        (["spoondrift", "--size", "3"], "has no size '3'"),
        (["spoondrift", "--choices", "x=y"], "has no choice 'x'"),
        (["spoondrift", "--out", "no/such/folder/a.pdf"], "cannot write no/such/folder/a.pdf: No such file"),
    ],
)
def test_mistakes_are_said_and_nothing_is_written(
    shop: Path, printing: None, arguments: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["paper", "--shop", "shop", *arguments]) == 1
    assert told in capsys.readouterr().err
    assert not list(Path().glob("*.pdf"))


def test_without_the_extra_it_says_what_to_install(
    shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(command, "why_not", lambda: "WeasyPrint is not installed. Install it.")
    assert main(["paper", "spoondrift", "--shop", "shop"]) == 1
    assert capsys.readouterr().err == "no paper guide can be made here. WeasyPrint is not installed. Install it.\n"


def test_drawings_of_steps_and_techniques_are_handed_over(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    handed: dict[str, bytes] = {}
    monkeypatch.setattr(command, "why_not", lambda: "")
    monkeypatch.setattr(command, "as_pdf", lambda document, own: handed.update(own) or b"%PDF")
    techniques, pattern = shop / "data" / "techniques", shop / "data" / "patterns" / "spoondrift"
    techniques.mkdir(exist_ok=True)
    (techniques / "hold.md").write_text("# Hold it\nshort: Hold.\ndrawing: hold.svg\n\nHold.\n", encoding="utf-8")
    (techniques / "hold.svg").write_bytes(b"<svg>of all patterns</svg>")
    (pattern / "hold.svg").write_bytes(b"<svg>of this one</svg>")
    with (pattern / "steps.md").open("a", encoding="utf-8") as steps:
        steps.write("\n## Hold it well\ntechnique: hold\ndrawing: hold.svg\n\nHold.\n")
    assert main(["paper", "spoondrift", "--shop", "shop"]) == 0
    assert handed == {"hold.svg": b"<svg>of this one</svg>", "~techniques/hold.svg": b"<svg>of all patterns</svg>"}
