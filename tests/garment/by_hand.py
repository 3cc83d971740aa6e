"""What the fixture garment must come out as, worked out on paper for three sets of choices. README.md shows the way.

Lengths are mm, areas mm². An edge is (length on the stitching line, length on the cutting line). `cut` is (cloth,
mode, count, face). `interfaced` is (cloth, area, area of the half or piece as drawn, area of one copy unfolded,
copies). A seam is (length of `join`, length of `to`). Nothing here was taken from the program's own output.

Corners: where two edges with an allowance of 10 meet at a turn of t, each cutting edge is longer than its stitching
edge by 10·tan(t/2). The half turns come from the triangles and have rational tangents:

    neck to shoulder, front   36.87° + 16.26°   tan = 1/2     adds 5
    neck to shoulder, back 80 (9, 40, 41)       tan = 8/31    adds 80/31
                      back 92 (20, 48, 52)      tan = 6/17    adds 60/17
                      back 104 (33, 56, 65)     tan = 16/37   adds 160/37
    shoulder to armhole       53.13° − 16.26°   tan = 1/3     adds 10/3
    armhole to side           90° − 53.13°      tan = 1/3     adds 10/3

At the centre the neck's cutting line ends on the vertical line of the centre's allowance c. The foot of the neck's
offset lies n to the left of the centre (n = 10 · down/hypotenuse); from there to −c it is (c − n) · hypotenuse/across.
"""

from __future__ import annotations

from typing import Any

SET_A: dict[str, Any] = {
    "size": "92",
    "chosen": {
        "opening": "front", "length": "hip", "sleeves": "none", "collar": "none", "pockets": "two", "lined": "none",
        "hem-finish": "machine",
    },
    "roles": {"opened": "front", "whole": "back"},
    "pieces": {
        "front": {
            "cut": [("outer", "pair", 2, "up")],
            "edges": {
                "neck": (60, 60 + 5 + (20 - 6) * 5 / 4),  # 82.5
                "shoulder": (75, 75 + 5 + 10 / 3),
                "armhole": (65, 65 + 10 / 3 + 10 / 3),
                "side": (240, 240 + 10 / 3 + 30),
                "hem": (159, 159 + 10 + 20),
                # The neck's cutting line meets x = −20 at 2.5 below the neck point: (50 − 3·20)/4.
                "centre": (277, 277 + 30 - 2.5),
            },
            # From −20 to 30 across, from −30 to 210 up.
            "interfaced": [("interfacing", "opening-strip", 50 * 240, 50 * 240, 1)],
        },
        "back": {
            "cut": [("outer", "fold", 1, "up")],
            "edges": {
                "neck": (52, 52 + 60 / 17 - 200 / 52 * 52 / 48),
                "shoulder": (75, 75 + 60 / 17 + 10 / 3),
                "armhole": (65, 65 + 10 / 3 + 10 / 3),
                "side": (240, 240 + 10 / 3 + 30),
                "hem": (159, 159 + 10),
                # On the fold the neck's cutting line is 10 · 52/48 above the neck point.
                "centre": (293, 293 + 30 + 520 / 48),
            },
            "interfaced": [],
        },
        "pocket": {
            "cut": [("outer", "single", 2, "down")],
            "edges": {
                "top": (96 - 20, 96),
                # Drawn as cut. 10 in from the side the bottom has fallen 10 · 20/48, and lies 10 · 52/48 higher.
                "right": (110 + 10 * 20 / 48 - 10 * 52 / 48, 110),  # 103 1/3
                "bottom": (2 * (48 - 10) * 52 / 48, 2 * 52),
                "left": (110 + 10 * 20 / 48 - 10 * 52 / 48, 110),
            },
            "interfaced": [],
        },
        "tab": {
            "cut": [("outer", "single", 1, "up")],
            "edges": {
                # The slanting lines, 5 outside, reach y = 0 at 5 · 5/4 outside, and meet 5 · 5/3 above the tip.
                "straight": (60, 60 + 2 * 6.25),
                "bent": (100, 2 * (30 + 6.25) * 5 / 3),
            },
            "interfaced": [],
        },
    },
    "seams": {"shoulder": (75, 75), "side": (240, 240)},
    "finished": {
        "chest": 4 * 159,
        "hem": 4 * 159,
        "below-buttons": 277 - 180,
    },
    "notions_mm": {},
    "notions_count": {"closure": 5, "tab-button": 1},
}

SET_B: dict[str, Any] = {
    "size": "80",
    "chosen": {
        "opening": "back", "length": "waist", "centre-seam": "none", "sleeves": "long", "sleeve-end": "gathered",
        "collar": "stand", "pockets": "none", "lined": "full", "hem-finish": "hand",
    },
    "roles": {"opened": "back", "whole": "front"},
    "pieces": {
        "front": {
            "cut": [("outer", "fold", 1, "up"), ("lining", "fold", 1, "up")],
            "edges": {
                "neck": (50, 50 + 5 - 6 * 5 / 4),  # 47.5
                "shoulder": (75, 75 + 5 + 10 / 3),
                "armhole": (60, 60 + 10 / 3 + 10 / 3),
                # Cut off 60 above the hem; the waist has an allowance of 10.
                "side": (200 - 60, 140 + 10 / 3 + 10),
                "waist": (148, 148 + 10),
                "centre": (239 - 60, 179 + 10 + 10 * 5 / 4),
            },
            "interfaced": [],
        },
        "back": {
            "cut": [("outer", "pair", 2, "up"), ("lining", "pair", 2, "up")],
            "edges": {
                "neck": (41, 41 + 80 / 31 + (20 - 90 / 41) * 41 / 40),
                "shoulder": (75, 75 + 80 / 31 + 10 / 3),
                "armhole": (60, 60 + 10 / 3 + 10 / 3),
                "side": (200 - 60, 140 + 10 / 3 + 10),
                "waist": (148, 148 + 10 + 20),
                # The neck's cutting line meets x = −20 at (410 − 9·20)/40 = 5.75 above the neck point.
                "centre": (260 - 60, 200 + 10 + 5.75),
            },
            "interfaced": [
                ("interfacing", "opening-strip", 50 * (180 - 50), 50 * (180 - 50), 1),  # to the cutting line
                ("interfacing", "opening-strip", 30 * (180 - 60), 30 * (180 - 60), 1),  # to the stitching line
            ],
        },
        "frill": {
            "cut": [("outer", "fold", 1, "up")],
            "edges": {
                "top": (148 + 222, 370 + 20),
                "middle": (100, 100 + 10 + 20),
                "hem": (148 + 222, 370 + 20),
                "open": (100, 100 + 10 + 20),
            },
            "interfaced": [],
        },
        "sleeve": {
            "cut": [("outer", "pair", 2, "up"), ("lining", "pair", 2, "up")],
            "edges": {
                # Triangle (60, 11, 61). The cutting line runs from 70 left to 70 right of the middle at the same slope
                # and lies 10 · 61/60 higher: at 70 it is 11 − 70 · 11/60 + 10 · 61/60 = 8 1/3 above the underarm.
                "head": (2 * 61, 2 * 70 * 61 / 60),
                "front-seam": (150, 150 + 25 / 3 + 10),
                "end": (120, 120 + 20),
                "back-seam": (150, 150 + 25 / 3 + 10),
            },
            "interfaced": [],
        },
        "cuff": {
            "cut": [("outer", "pair", 4, "up")],
            "edges": {"top": (90, 110), "right": (40, 60), "fold-over": (90, 110), "left": (40, 60)},
            "interfaced": [("interfacing", None, 90 * 40, 90 * 40, 4)],
        },
        "collar": {
            "cut": [("outer", "fold", 2, "up")],
            "edges": {"top": (81, 91), "middle": (40, 60), "neck": (81, 91), "end": (40, 60)},
            "interfaced": [("interfacing", None, 81 * 40, 2 * 81 * 40, 2)],
        },
    },
    "seams": {
        "shoulder": (75, 75),
        "side": (140, 140),
        "armhole": (122, 120),
        "collar": (81, 50 + 41 * 3 / 4),
        "frill-plain": (148, 148),
        "frill-gathered": (222, 148),
        "sleeve-gathers": (60, 30),
        "sleeve-end-plain": (30 + 30, 30 + 30),
    },
    "finished": {"chest": 4 * 148, "centre-length": 179 + 100},
    # Elastic: 460 · 0.5 − 10, and 20 of overlap. Ribbon: 370 · 2 · 1.1 + 30.
    "notions_mm": {"waist-elastic": 220 + 20, "frill-ribbon": 844},
    "notions_count": {"closure": 4},
}

SET_C: dict[str, Any] = {
    "size": "104",
    "chosen": {
        "opening": "front", "length": "waist", "centre-seam": "sewn", "sleeves": "long", "sleeve-end": "hemmed",
        "collar": "stand", "pockets": "none", "lined": "none", "hem-finish": "machine",
    },
    "roles": {"opened": "front", "whole": "back"},
    "pieces": {
        "front": {
            "cut": [("outer", "pair", 2, "up")],
            "edges": {
                "neck": (70, 70 + 5 + (20 - 6) * 5 / 4),  # 92.5
                "shoulder": (75, 75 + 5 + 10 / 3),
                "armhole": (70, 70 + 10 / 3 + 10 / 3),
                "side": (280 - 60, 220 + 10 / 3 + 10),
                "waist": (170, 170 + 10 + 20),
                "centre": (315 - 60, 255 + 10 - 2.5),
            },
            "interfaced": [
                ("interfacing", "opening-strip", 50 * (240 - 50), 50 * (240 - 50), 1),  # to the cutting line
                ("interfacing", "opening-strip", 30 * (240 - 60), 30 * (240 - 60), 1),  # to the stitching line
            ],
        },
        "back": {
            "cut": [("outer", "fold", 1, "up")],
            "edges": {
                "neck": (65, 65 + 160 / 37 - 330 / 65 * 65 / 56),
                "shoulder": (75, 75 + 160 / 37 + 10 / 3),
                "armhole": (70, 70 + 10 / 3 + 10 / 3),
                "side": (280 - 60, 220 + 10 / 3 + 10),
                "waist": (170, 170 + 10),
                "centre": (324 - 60, 264 + 10 + 10 * 65 / 56),
            },
            "interfaced": [],
        },
        "frill": {
            "cut": [("outer", "pair", 2, "up")],
            "edges": {
                "top": (170 + 297.5, 467.5 + 20 + 10),
                "middle": (120, 120 + 10 + 20),
                "hem": (170 + 297.5, 467.5 + 20 + 10),
                "open": (120, 120 + 10 + 20),
            },
            "interfaced": [],
        },
        "sleeve": {
            "cut": [("outer", "pair", 2, "up")],
            "edges": {
                # Triangle 2.9 · (24, 7, 25). At 79.6 from the middle: 20.3 − 79.6 · 7/24 + 10 · 25/24 = 7.5.
                "head": (2 * 72.5, 2 * 79.6 * 25 / 24),
                "front-seam": (210, 210 + 7.5 + 30),
                "end": (139.2, 139.2 + 20),
                "back-seam": (210, 210 + 7.5 + 30),
            },
            "interfaced": [],
        },
        "collar": {
            "cut": [("outer", "fold", 2, "up")],
            "edges": {"top": (121, 131), "middle": (40, 60), "neck": (121, 131), "end": (40, 60)},
            "interfaced": [("interfacing", None, 121 * 40, 2 * 121 * 40, 2)],
        },
    },
    "seams": {
        "shoulder": (75, 75),
        "side": (220, 220),
        "armhole": (145, 140),
        "collar": (121, 65 + 70 * 4 / 5),
        "frill-plain": (170, 170),
        "frill-gathered": (297.5, 170),
    },
    "finished": {"chest": 4 * 170, "centre-length": 264 + 120},
    # Elastic: 500 · 0.5 − 10, and 20 of overlap. Ribbon: 467.5 · 2 · 1.1 + 30.
    "notions_mm": {"waist-elastic": 240 + 20, "frill-ribbon": 1058.5},
    "notions_count": {"closure": 5},
}

SETS: dict[str, dict[str, Any]] = {"a": SET_A, "b": SET_B, "c": SET_C}
