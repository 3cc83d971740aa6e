"""The look keeps its promises: contrast in both schemes, no shadows, nothing from elsewhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

THEME = Path(__file__).parents[2] / "site_src" / "theme"
STYLES = sorted((THEME / "assets").glob("*.css"))
TEXT_CONTRAST, SHAPE_CONTRAST = 4.5, 3.0
"""Source: WCAG 2.2, 1.4.3 and 1.4.11."""
FONT_BYTES = 10_000


def schemes() -> dict[str, dict[str, str]]:
    """Colours by name, in the light and the dark scheme."""
    text = (THEME / "assets" / "paper.css").read_text(encoding="utf-8")
    blocks = re.findall(r":root \{(.*?)\}", text, re.S)
    light, dark = (dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", block)) for block in blocks[:2])
    assert len(light) == len(dark) >= 10
    return {"light": light, "dark": dark}


def luminance(colour: str) -> float:
    """Relative luminance. Source: WCAG 2.2, definition of the term."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    r, g, b = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    """Contrast ratio. Source: WCAG 2.2, definition of the term."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.outside
def test_contrast_formula_on_known_pairs() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)  # WCAG: the largest ratio
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # the well-known near miss of 4.5


@pytest.mark.outside
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_contrast(scheme: str) -> None:
    colours = schemes()[scheme]
    for ground in ("ground", "slip", "wash"):
        for ink in ("ink", "soft", "accent", "warn"):
            assert contrast(colours[ink], colours[ground]) >= TEXT_CONTRAST, (ink, ground)
        assert contrast(colours["edge"], colours[ground]) >= SHAPE_CONTRAST, ground
    assert contrast(colours["on-accent"], colours["accent"]) >= TEXT_CONTRAST


@pytest.mark.parametrize("style", STYLES, ids=lambda path: path.name)
def test_no_shadows_no_gradients_nothing_from_elsewhere(style: Path) -> None:
    text = re.sub(r"/\*.*?\*/", "", style.read_text(encoding="utf-8"), flags=re.S)
    shadows = re.findall(r"box-shadow: ([^;]+);", text)
    assert all(shadow == "none" or shadow.startswith("inset") for shadow in shadows), shadows
    assert "gradient(" not in text and "http" not in text and "//" not in text and "@import" not in text


def test_the_display_face_is_small_and_has_its_licence() -> None:
    fonts = list((THEME / "assets" / "fonts").glob("*.woff2"))
    assert fonts and sum(font.stat().st_size for font in fonts) <= FONT_BYTES
    assert "SIL Open Font License" in (THEME / "assets" / "fonts" / "jost-OFL.txt").read_text(encoding="utf-8")
