"""The index of remnants, held against numpy's sums and against a few lengths on paper."""

from __future__ import annotations

import numpy as np
import pytest

from boltside.calculators.remnant_index import Lengths, read, written


@pytest.mark.outside  # numpy, as a second library for sums
@pytest.mark.parametrize(("planes", "rows", "sizes"), [(1, 1, 1), (1, 3, 9), (4, 2, 5), (3, 6, 1), (2, 5, 13)])
def test_signs_are_read_as_numpy_sums_them(planes: int, rows: int, sizes: int) -> None:
    # The text: each length less the one before it in size, of what is left when the same was taken of the plane before;
    # one byte each, 64 for nought. So its lengths are its sums along the sizes and then along the planes.
    draw = np.random.default_rng(20_260)
    signs = draw.integers(0, 256, size=(planes, rows, sizes), dtype=np.uint8)
    text = (signs + np.uint8(64)).tobytes().decode("latin-1")
    lengths = signs.cumsum(axis=2, dtype=np.uint8).cumsum(axis=0, dtype=np.uint8)
    assert read(text, sizes=sizes, planes=planes) == lengths.tobytes()
    whole = draw.integers(0, 254, size=planes * rows * sizes)
    made = np.frombuffer(written(whole.tolist(), sizes=sizes, planes=planes).encode("latin-1"), dtype=np.uint8)
    steps = (made - np.uint8(64)).reshape(planes, rows, sizes)
    assert (steps.cumsum(axis=2, dtype=np.uint8).cumsum(axis=0, dtype=np.uint8).ravel() == whole).all()


@pytest.mark.outside  # worked out on paper
def test_a_text_worked_out_on_paper() -> None:
    # Two sizes on two widths: 60, 66 and 40, 44. Differences along the sizes: 60, 6, 40, 4. As signs from 64 on:
    # 124 is |, 70 is F, 104 is h, 68 is D.
    assert written([60, 66, 40, 44], sizes=2, planes=1) == "|FhD"
    # Laid with nap (61, 68, 40, 44) beside it, second: the plane before taken away 1, 2, 0, 0; along the sizes 1, 1, 0,
    # 0: A, A, @, @.
    assert written([60, 66, 40, 44, 61, 68, 40, 44], sizes=2, planes=2) == "|FhDAA@@"
    cloth = {"ways": ["flat"], "naps": ["without", "with"], "widths": [900, 1400], "rows": 1, "lengths": "|FhDAA@@",
             "high": ""}  # fmt: skip
    found = Lengths(cloth, sizes=2)
    assert [found.at("flat", nap, width, 1) for nap in ("without", "with") for width in (900, 1399, 1400)] == [
        [66], [66], [44], [68], [68], [44],
    ]  # fmt: skip
