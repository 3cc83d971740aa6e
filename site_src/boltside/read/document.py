"""pattern.yaml as types: the outside form, exactly as `handbook/pattern-format.md` describes it.

Shorthands are opened here (one mapping for a list of mappings, a number for a list of cases, a dotted word for a part),
so that everything behind sees one form only. Pydantic names what is wrong; `schema` says where it stands. Longer than
400 lines because every key of the format stands here, and nothing else does.
"""

from __future__ import annotations

from typing import Annotated, Any, Final, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints

LENGTH_MM_MAX: Final = 10_000
"""No edge, allowance or width is longer than ten metres. Our choice, against slips of the decimal point."""

ALLOWANCE_MM_MAX: Final = 200
"""The widest hem one turns in is well below. Our choice, against centimetres taken for millimetres."""

COUNT_MAX: Final = 100
MINUTES_MAX: Final = 10_000

NAME_PATTERN: Final = r"^[a-z0-9]+(-[a-z0-9]+)*$"
SIZE_PATTERN: Final = r"^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$"
PIECE_PATTERN: Final = r"^(as:)?[a-z0-9]+(-[a-z0-9]+)*$"
DOTTED_PATTERN: Final = r"^(as:)?[a-z0-9]+(-[a-z0-9]+)*\.[a-z0-9]+(-[a-z0-9]+)*$"
PRICE_PATTERN: Final = r"^(0|[1-9][0-9]{0,5})\.[0-9]{2}$"
LANGUAGE_PATTERN: Final = r"^[a-z]{2,3}(-[A-Z][a-z]{3})?(-[A-Z]{2})?$"
"""A language, a script and a country as BCP 47 joins them, the common part of it."""

CURRENCY_PATTERN: Final = r"^[A-Z]{3}$"
"""ISO 4217."""

COLOUR_PATTERN: Final = r"^#[0-9A-Fa-f]{6}$"

MANY: Final = 60
"""So many sizes, edges of a piece, parts of a chain or cases are more than any pattern has. Our choice, so that no file
can keep the reader busy for minutes."""

VERY_MANY: Final = 400
"""The same for pieces, seams, rules, measurements and the parts of a line drawing."""

REMNANT_WIDTHS_MAX: Final = 12
"""From 30 to 85 cm in steps of 5. Each width more takes its time to lay. Our choice."""

NAME_LENGTH_MAX: Final = 60
FILE_LENGTH_MAX: Final = 300
TEXT_LENGTH_MAX: Final = 2_000


def _pattern(pattern: str) -> StringConstraints:
    return StringConstraints(strict=True, pattern=pattern, max_length=NAME_LENGTH_MAX)


def _listed(value: Any) -> Any:
    """One thing stands for a list of one."""
    return value if isinstance(value, list) else [value]


def _cases(value: Any) -> Any:
    """A number stands for one case that always holds."""
    return [{"mm": value}] if isinstance(value, int | float | str) else value


def _stretch_cases(value: Any) -> Any:
    """A number stands for one case that always holds."""
    return [{"times": value}] if isinstance(value, int | float) else value


def _nap_cases(value: Any) -> Any:
    """A word stands for one case that always holds."""
    return [{"nap": value}] if isinstance(value, str) else value


def _kind_case(value: Any) -> Any:
    """A word in the list of kinds stands for a case of its own; `make` puts such words together."""
    return {"kinds": [value]} if isinstance(value, str) else value


def _carried(value: Any) -> Any:
    """`buttonholes` stands for `{what: buttonholes}`."""
    return {"what": value} if isinstance(value, str) else value


def _line_part(value: Any) -> Any:
    """`front.button-line` stands for `{line: front.button-line}`."""
    return {"line": value} if isinstance(value, str) else value


def _edge_part(value: Any) -> Any:
    """`front.neck` stands for `{edge: front.neck}`."""
    return {"edge": value} if isinstance(value, str) else value


Name = Annotated[str, _pattern(NAME_PATTERN)]
BodyName = Annotated[str, StringConstraints(strict=True, max_length=NAME_LENGTH_MAX)]
"""A body measurement as the chart heads its column, less `_mm`; whether the chart has it is checked later."""
SizeName = Annotated[str, _pattern(SIZE_PATTERN)]
PieceName = Annotated[str, _pattern(PIECE_PATTERN)]
Dotted = Annotated[str, _pattern(DOTTED_PATTERN)]
FileName = Annotated[str, StringConstraints(strict=True, min_length=1, max_length=FILE_LENGTH_MAX)]
"""A file of the pattern's folder, or an address; what it leads to is checked later."""
Word = Annotated[str, _pattern(SIZE_PATTERN)]
Text = Annotated[str, StringConstraints(strict=True, min_length=1, max_length=TEXT_LENGTH_MAX)]
Length = Annotated[float, Field(strict=True, gt=0, le=LENGTH_MM_MAX, allow_inf_nan=False)]
SignedLength = Annotated[float, Field(strict=True, ge=-LENGTH_MM_MAX, le=LENGTH_MM_MAX, allow_inf_nan=False)]
Allowance = Annotated[float, Field(strict=True, ge=0, le=ALLOWANCE_MM_MAX, allow_inf_nan=False)]
Times = Annotated[float, Field(strict=True, ge=-100, le=100, allow_inf_nan=False)]
Ratio = Annotated[float, Field(strict=True, gt=0, le=100, allow_inf_nan=False)]
Degrees = Annotated[float, Field(strict=True, ge=-360, le=360, allow_inf_nan=False)]
Minutes = Annotated[int, Field(strict=True, ge=0, le=MINUTES_MAX)]
Count = Annotated[int, Field(strict=True, ge=1, le=COUNT_MAX)]
Words = Annotated[list[Word], BeforeValidator(_listed), Field(min_length=1, max_length=MANY)]
Names = Annotated[list[Name], BeforeValidator(_listed), Field(max_length=MANY)]
NameSets = Annotated[
    list[Annotated[list[Name], BeforeValidator(_listed), Field(min_length=1, max_length=MANY)]],
    BeforeValidator(_listed),
    Field(max_length=MANY),
]
PieceSets = Annotated[
    list[Annotated[list[PieceName], BeforeValidator(_listed), Field(min_length=1, max_length=MANY)]],
    BeforeValidator(_listed),
    Field(max_length=MANY),
]
"""Names, or lists of names of which whichever is there is meant."""
AllOf = Annotated[dict[Name, Words], Field(min_length=1, max_length=MANY)]
AnyOf = Annotated[list[AllOf], BeforeValidator(_listed), Field(min_length=1, max_length=MANY)]
Range = Annotated[list[SignedLength], Field(min_length=2, max_length=2)]
RatioRange = Annotated[list[Ratio], Field(min_length=2, max_length=2)]
Side = Literal["stitching", "cutting"]


class Part(BaseModel):
    """What all parts of the document share: no key beside the listed ones, nothing taken for something else."""

    model_config = ConfigDict(extra="forbid", strict=True, populate_by_name=False)


class AlternativeDoc(Part):
    """One alternative of a choice."""

    title: Text
    about: Text | None = None
    difficulty: Annotated[int, Field(ge=-4, le=4)] = 0
    minutes: Annotated[int, Field(ge=-MINUTES_MAX, le=MINUTES_MAX)] = 0


class ChoiceDoc(Part):
    """A question put to the buyer."""

    title: Text
    about: Text | None = None
    default: Word
    alternatives: Annotated[dict[Name, AlternativeDoc], Field(min_length=2, max_length=MANY)]
    asked_when: AnyOf | None = None
    steps_only: bool = False


class RuleDoc(Part):
    """A hard rule or a piece of advice."""

    when: AnyOf
    needs: AnyOf | None = None
    excludes: AnyOf | None = None
    only_sizes: Annotated[list[Word], Field(max_length=MANY)] | None = None
    advice: Text | None = None
    because: Text | None = None


class NapCaseDoc(Part):
    """One case of how a cloth is laid."""

    nap: Literal["ask", "always", "never"]
    when: AnyOf | None = None


class KindCaseDoc(Part):
    """One case of which kinds of cloth are meant."""

    kinds: Annotated[list[Literal["woven", "knit", "interfacing"]], Field(min_length=1, max_length=MANY)]
    when: AnyOf | None = None


class ClothRepeatDoc(Part):
    """Stripes or checks that get lays of their own."""

    title: Text
    along_mm: Length
    across_mm: Length | None = None
    even: bool = True


class ClothDoc(Part):
    """A cloth by garment part."""

    title: Text
    kinds: Annotated[list[Annotated[KindCaseDoc, BeforeValidator(_kind_case)]], Field(min_length=1, max_length=MANY)]
    usual_width_mm: Length
    widths_mm: Annotated[list[Length], Field(min_length=1, max_length=MANY)]
    ways: Annotated[list[Literal["folded", "flat", "middle", "part-folded"]], Field(min_length=1, max_length=4)]
    remnant_widths_mm: Annotated[list[Length], Field(max_length=REMNANT_WIDTHS_MAX)] = []
    nap: Annotated[list[NapCaseDoc], BeforeValidator(_nap_cases), Field(min_length=1, max_length=MANY)] | None = None
    repeats: Annotated[dict[Name, ClothRepeatDoc], Field(max_length=MANY)] = {}


class ClothPlanDoc(Part):
    """A named set of choices that says which parts come from which cloth."""

    title: Text
    choices: AllOf


class RolePlayDoc(Part):
    """A piece that plays a role."""

    piece: Name
    when: AnyOf | None = None


class CaseDoc(Part):
    """One case of an allowance."""

    mm: Allowance
    when: AnyOf | None = None


Cases = Annotated[list[CaseDoc], BeforeValidator(_cases), Field(min_length=1, max_length=MANY)]


class EdgeDoc(Part):
    """An edge. Under `as:<role>` only the name and the allowance may be said."""

    name: Name
    start: Annotated[Name | None, Field(alias="from")] = None
    via: Name | None = None
    allowance_mm: Cases | None = None


class CutOffDoc(Part):
    """A shorter version along an interior line."""

    line: Name
    keep: Name
    edge: Name
    allowance_mm: Cases | None = None
    when: AnyOf | None = None


class CutDoc(Part):
    """How a piece is cut from one cloth."""

    cloth: Name
    mode: Literal["single", "pair", "fold"]
    count: Count
    fold_edge: Name | None = None
    face: Literal["up", "down"] = "up"
    when: AnyOf | None = None


class CarriedDoc(Part):
    """Something that a copy carries, and when."""

    what: Name
    when: AnyOf | None = None


class CopyDoc(Part):
    """What one copy of a pair has of its own."""

    carries: Annotated[
        list[Annotated[CarriedDoc, BeforeValidator(_carried)]], Field(min_length=1, max_length=MANY)
    ] = []
    drawn: bool = False
    when: AnyOf | None = None


class InterfacingDoc(Part):
    """An interfaced area."""

    cloth: Name
    area: Name
    to: Side = "cutting"
    copies: Annotated[list[Name], Field(min_length=1, max_length=MANY)] = []
    when: AnyOf | None = None


class PieceDoc(Part):
    """A piece, or under `as:<role>` what a role adds to the piece that plays it."""

    title: Text | None = None
    when: AnyOf | None = None
    drawn: Side | None = None
    grain: Literal["lengthwise", "crosswise", "bias"] | None = None
    stretch: Literal["across", "along", "none"] | None = None
    in_step: Name | None = None
    edges: Annotated[list[EdgeDoc], Field(max_length=MANY)] = []
    cut_offs: Annotated[list[CutOffDoc], Field(max_length=MANY)] = []
    cut: Annotated[list[CutDoc], Field(max_length=MANY)] = []
    copies: Annotated[dict[Name, CopyDoc], Field(max_length=MANY)] = {}
    interfacing: Annotated[list[InterfacingDoc], Field(max_length=MANY)] = []


class EdgePartDoc(Part):
    """An edge or a stretch of it."""

    edge: Dotted
    start: Annotated[Name | None, Field(alias="from")] = None
    stop: Annotated[Name | None, Field(alias="to")] = None
    times: Times = 1


EdgePartOrWord = Annotated[EdgePartDoc, BeforeValidator(_edge_part)]


class MarksDoc(Part):
    """From where both edges of gathers are marked."""

    start: Annotated[Text, Field(alias="from")]
    free_mm: Allowance = 0


class SeamDoc(Part):
    """Edges sewn together."""

    name: Name
    join: Annotated[list[EdgePartOrWord], Field(min_length=1, max_length=MANY)]
    to: Annotated[list[EdgePartOrWord], Field(min_length=1, max_length=MANY)]
    ease_mm: Range | None = None
    ease_percent: Range | None = None
    gather_ratio: RatioRange | None = None
    marks: MarksDoc | None = None
    when: AnyOf | None = None


class SumPartDoc(Part):
    """One part of a finished measurement: exactly one of edge, between, line."""

    edge: Dotted | None = None
    start: Annotated[Name | None, Field(alias="from")] = None
    stop: Annotated[Name | None, Field(alias="to")] = None
    between: Annotated[list[Dotted], Field(min_length=2, max_length=2)] | None = None
    along: Literal["x", "y"] | None = None
    line: Dotted | None = None
    times: Times = 1


class MeasurementDoc(Part):
    """A finished measurement."""

    name: Name
    title: Text
    sum: Annotated[list[SumPartDoc], Field(min_length=1, max_length=MANY)]
    body: BodyName | None = None
    ease_mm: dict[Literal["woven", "knit"], Range] = {}
    wearing_mm: dict[Literal["woven", "knit"], Range] = {}
    when: AnyOf | None = None


class LengthenDoc(Part):
    """Where the garment is made longer or shorter."""

    title: Text
    where: Text
    lines: Annotated[list[Dotted], Field(min_length=1, max_length=MANY)]
    by: Name
    when: AnyOf | None = None


class StretchCaseDoc(Part):
    """One case of how far a ring stretches."""

    times: Ratio
    when: AnyOf | None = None


class PullOnDoc(Part):
    """A ring that is pulled over a part of the body."""

    name: Name
    title: Text
    over: BodyName
    sum: Annotated[list[SumPartDoc], Field(min_length=1, max_length=MANY)]
    slit: Annotated[list[SumPartDoc], Field(max_length=MANY)] = []
    stretches_to: Annotated[
        list[StretchCaseDoc], BeforeValidator(_stretch_cases), Field(min_length=1, max_length=MANY)
    ] | None = None
    when: AnyOf | None = None


class ChannelDoc(Part):
    """The channel of an elastic: exactly one of sum, hem."""

    sum: Annotated[list[SumPartDoc], Field(max_length=MANY)] = []
    hem: Dotted | None = None
    less_mm: Allowance = 0


class NotionRuleDoc(Part):
    """How the length of a notion is reckoned."""

    take: Literal["ring", "edge"]
    body: BodyName | None = None
    times: Times | None = None
    factor: Ratio | None = None
    minus_mm: SignedLength | None = None
    overlap_mm: Allowance | None = None
    tail_mm: Allowance | None = None
    plus_mm: SignedLength | None = None


class PlacedAlongDoc(Part):
    """One piece's part of the line along which closures sit: exactly one of line, edge."""

    line: Dotted | None = None
    edge: Dotted | None = None
    start: Annotated[Name | None, Field(alias="from")] = None
    stop: Annotated[Name | None, Field(alias="to")] = None
    upper: Name | None = None
    share: Annotated[float, Field(strict=True, gt=0, le=1, allow_inf_nan=False)] = 1
    when: AnyOf | None = None


PlacedLines = Annotated[
    list[Annotated[PlacedAlongDoc, BeforeValidator(_line_part)]],
    BeforeValidator(_listed),
    Field(min_length=1, max_length=MANY),
]


class PlacedDoc(Part):
    """How closures are placed along a line."""

    along: PlacedLines
    below: Text | None = None
    start: Annotated[Text | None, Field(alias="from")] = None
    first_mm: Cases
    last_mm: Cases | None = None
    spacing_mm: Length | None = None
    holes: Literal["across", "along"] | None = None
    clear_mm: Allowance | None = None
    clear_of: Annotated[list[Dotted], Field(max_length=MANY)] = []
    rows: Count = 1
    each: Text | None = None
    backing: PlacedLines | None = None
    onto: PlacedLines | None = None


NotionKind = Literal["elastic", "button", "snap", "ribbon", "zip", "thread", "other"]


class NotionDoc(Part):
    """Something to buy besides cloth."""

    name: Name
    title: Text
    kind: Annotated[list[NotionKind], BeforeValidator(_listed), Field(min_length=1, max_length=MANY)]
    width_mm: Length | None = None
    diameter_mm: Length | None = None
    thickness_mm: Length | None = None
    needs: Text | None = None
    edge: EdgePartOrWord | None = None
    rule: NotionRuleDoc | None = None
    tabled_mm: Annotated[dict[Word, Length], Field(max_length=MANY)] = {}
    count: Count | None = None
    tabled_count: Annotated[dict[Word, Count], Field(max_length=MANY)] = {}
    carried_by: Name | None = None
    placed: PlacedDoc | None = None
    passes: Annotated[list[BodyName], BeforeValidator(_listed), Field(max_length=MANY)] = []
    channel: ChannelDoc | None = None
    reel_m: Length | None = None
    when: AnyOf | None = None


class KeepDoc(Part):
    """One side of an interior line."""

    line: Name
    point: Name


class DrawingPartDoc(Part):
    """One piece of a line drawing."""

    piece: PieceName
    put: Name
    on: Dotted | None = None
    turn_deg: Degrees = 0
    keep: KeepDoc | None = None
    both_sides: bool = True
    when: AnyOf | None = None


class DrawingDoc(Part):
    """The line drawings."""

    front: Annotated[list[DrawingPartDoc], Field(max_length=VERY_MANY)] = []
    back: Annotated[list[DrawingPartDoc], Field(max_length=VERY_MANY)] = []


class SaleDoc(Part):
    """How the pattern can be had."""

    price: Annotated[str, StringConstraints(strict=True, pattern=PRICE_PATTERN)] | None = None
    free: bool = False
    checkout: FileName | None = None
    download: FileName | None = None
    formats: Annotated[list[Text], Field(max_length=MANY)] = []
    languages: Annotated[
        list[Annotated[str, StringConstraints(strict=True, pattern=LANGUAGE_PATTERN)]], Field(max_length=MANY)
    ] = []


class PhotographDoc(Part):
    """A photograph of a sewn garment."""

    file: FileName
    title: Text
    size: Word | None = None
    choices: dict[Name, Word] = {}
    cloth: Text | None = None


class PatternDoc(Part):
    """The whole of pattern.yaml."""

    boltside: Literal[1]
    name: Text
    summary: Text
    garment: Text
    edition: Text
    difficulty: Annotated[int, Field(ge=1, le=5)]
    minutes: Minutes
    body_chart: Annotated[str, StringConstraints(strict=True, max_length=NAME_LENGTH_MAX)]
    sizes: Annotated[list[SizeName], Field(min_length=1, max_length=MANY)]
    size_by: Annotated[list[Name], Field(min_length=1, max_length=MANY)]
    drawn: Side
    allowance_mm: Allowance | None = None
    cautions: Annotated[list[Literal["small-parts", "cords", "sleepwear", "elastic"]], Field(max_length=MANY)] = []
    choices: Annotated[dict[Name, ChoiceDoc], Field(max_length=MANY)] = {}
    rules: Annotated[list[RuleDoc], Field(max_length=VERY_MANY)] = []
    cloths: Annotated[dict[Name, ClothDoc], Field(min_length=1, max_length=MANY)]
    cloth_plans: Annotated[dict[Name, ClothPlanDoc], Field(min_length=2, max_length=MANY)] = {}
    roles: Annotated[
        dict[Name, Annotated[list[RolePlayDoc], Field(min_length=1, max_length=MANY)]], Field(max_length=MANY)
    ] = {}
    pieces: Annotated[dict[PieceName, PieceDoc], Field(min_length=1, max_length=VERY_MANY)]
    seams: Annotated[list[SeamDoc], Field(max_length=VERY_MANY)] = []
    measurements: Annotated[list[MeasurementDoc], Field(max_length=VERY_MANY)] = []
    pull_on: Annotated[list[PullOnDoc], Field(max_length=MANY)] = []
    lengthen: Annotated[list[LengthenDoc], Field(max_length=MANY)] = []
    notions: Annotated[list[NotionDoc], Field(max_length=MANY)] = []
    together: Annotated[
        list[Annotated[list[Word], Field(min_length=2, max_length=2)]], Field(max_length=MANY)
    ] = []
    drawing: DrawingDoc = DrawingDoc()
    sale: SaleDoc | None = None
    photographs: Annotated[list[PhotographDoc], Field(max_length=MANY)] = []


class ShopDoc(Part):
    """The whole of shop.yaml."""

    boltside: Literal[1]
    label: Annotated[str, StringConstraints(strict=True, min_length=1, max_length=NAME_LENGTH_MAX)]
    currency: Annotated[str, StringConstraints(strict=True, pattern=CURRENCY_PATTERN)] = "EUR"
    accent: Annotated[str, StringConstraints(strict=True, pattern=COLOUR_PATTERN)] | None = None
