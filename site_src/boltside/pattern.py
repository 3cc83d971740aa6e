"""The pattern as the rest of the program sees it: frozen, checked, without numbers computed yet.

The reader (`boltside.read`) is the only maker of these models. Lengths are millimetres. Coordinates are x to the
right and y *up* (the reader turns the drawing's y over once). `site_src/handbook/pattern-format.md` describes the
files they come from. Longer than 400 lines because every part of the format has its model here, and nothing else has.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

Point = tuple[float, float]
Polyline = tuple[Point, ...]
DrawnLine = Literal["stitching", "cutting"]
Mode = Literal["single", "pair", "fold"]
Grain = Literal["lengthwise", "crosswise", "bias"]
Stretch = Literal["across", "along", "none"]
"""Which way of the drawn piece a knit's greatest stretch has to run, as seen from its grain line; none: any."""
Face = Literal["up", "down"]
Nap = Literal["ask", "always", "never"]
ChoiceSet = Mapping[str, str]
"""What was chosen: choice name to alternative name; choices that are not asked are absent."""

Condition = tuple[Mapping[str, tuple[str, ...]], ...]
"""Any of the mappings holds; a mapping holds when every key's value is among those listed. Key `size` is the size.

The empty tuple means *always*. A key that is absent from the choice set never holds.
"""
ALWAYS: Condition = ()


@dataclass(frozen=True, kw_only=True)
class Alternative:
    """One alternative of a choice; what it adds to difficulty (steps of 1–5) and sewing time (minutes).

    `about` is a sentence or two for the page that explains the choice, plain text.
    """

    name: str
    title: str
    about: str = ""
    difficulty: int = 0
    minutes: int = 0


@dataclass(frozen=True, kw_only=True)
class Choice:
    """A question put to the buyer. `asked_when` fails: the choice does not exist in that combination."""

    name: str
    title: str
    about: str = ""
    default: str
    alternatives: tuple[Alternative, ...]
    asked_when: Condition = ALWAYS
    steps_only: bool = False


@dataclass(frozen=True, kw_only=True)
class Rule:
    """Where `when` holds: exactly one of needs, excludes, only_sizes (hard) or advice (soft) is set."""

    when: Condition
    needs: Condition | None = None
    excludes: Condition | None = None
    only_sizes: tuple[str, ...] | None = None
    advice: str | None = None
    because: str | None = None


@dataclass(frozen=True, kw_only=True)
class NapCase:
    """Whether a cloth is laid with nap: `always`, `never` (turning is allowed and nobody asks), or the buyer says."""

    nap: Nap
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class KindCase:
    """Which kinds of cloth (woven, knit, interfacing) are meant where the condition holds."""

    kinds: tuple[str, ...]
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class ClothRepeat:
    """A pattern of the cloth that gets lays of its own: what repeats along it and across it, in mm.

    `across_mm` None: it runs through. Not `even`: it has no two equal sides, so it is laid flat.
    """

    name: str
    title: str
    along_mm: float
    across_mm: float | None = None
    even: bool = True


@dataclass(frozen=True, kw_only=True)
class Cloth:
    """A cloth by garment part (outer, lining, interfacing). Widths are the bolt's, in mm; first way is the default.

    `remnant_widths_mm`: narrower widths, laid flat only and only as long as a remnant may be.
    `kinds` are all kinds it can be; `kind_cases` say which are meant with which choices. Of `nap` and `kind_cases`
    the first case that holds is taken; the last case of `nap` always holds.
    """

    name: str
    title: str
    kinds: tuple[str, ...]
    usual_width_mm: float
    widths_mm: tuple[float, ...]
    ways: tuple[str, ...]
    remnant_widths_mm: tuple[float, ...] = ()
    nap: tuple[NapCase, ...] = (NapCase(nap="ask"),)
    kind_cases: tuple[KindCase, ...] = ()
    repeats: tuple[ClothRepeat, ...] = ()


@dataclass(frozen=True, kw_only=True)
class ClothPlan:
    """Which parts come from which cloth, as a set of choices. Any of a choice's words will do, the first is taken.

    Of these choices only those count that are asked in a combination.
    """

    name: str
    title: str
    choices: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, kw_only=True)
class Case:
    """One case of a length that depends on choices, in mm."""

    mm: float
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class Edge:
    """An edge of a piece, from a named point to the next edge's. First allowance case that holds is taken (mm)."""

    name: str
    start: str
    allowance_mm: tuple[Case, ...]
    via: str | None = None


@dataclass(frozen=True, kw_only=True)
class CutOff:
    """Cut along the interior line, keep the side with the point `keep`; the new edge is named `edge`."""

    line: str
    keep: str
    edge: str
    allowance_mm: tuple[Case, ...]
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class CutEntry:
    """How a piece is cut from one cloth: the first entry of a cloth that holds is taken."""

    cloth: str
    mode: Mode
    count: int
    fold_edge: str | None = None
    face: Face = "up"
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class Carried:
    """What a copy carries where the condition holds (`buttonholes`, `buttons`)."""

    what: str
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class Copy:
    """One copy of a pair, named by the wearer, with what it carries of its own (`wearers-left` carries buttonholes).

    `drawn` is True for a copy that comes out as the outline is drawn, face up; its opposite is the mirror image.
    """

    name: str
    carries: tuple[Carried, ...] = ()
    drawn: bool = False
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class Interfacing:
    """An interfaced area: `area` None means the whole piece; `copies` empty means every copy."""

    cloth: str
    area: str | None
    to: DrawnLine
    copies: tuple[str, ...] = ()
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class Outline:
    """One piece in one size as drawn, in mm, y up, curves flattened to 0.1 mm or finer.

    `outline_mm` is closed implicitly and runs round in the order of the piece's edges, so either way round; it
    begins at the first edge's start. Named points on the outline are vertices of it.
    """

    outline_mm: Polyline
    points_mm: Mapping[str, Point]
    lines_mm: Mapping[str, Polyline] = field(default_factory=dict)
    areas_mm: Mapping[str, Polyline] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class RolePlay:
    """A piece that plays a role where the condition holds."""

    piece: str
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class RolePart:
    """What a role adds to whichever piece plays it; edge allowances override the piece's own."""

    role: str
    plays: tuple[RolePlay, ...]
    allowances_mm: Mapping[str, tuple[Case, ...]] = field(default_factory=dict)
    cut_offs: tuple[CutOff, ...] = ()
    cut: tuple[CutEntry, ...] = ()
    copies: tuple[Copy, ...] = ()
    interfacing: tuple[Interfacing, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A piece as written, with its outline in every size. `in_step` names the point that stripes and checks meet."""

    name: str
    title: str
    drawn: DrawnLine
    grain: Grain
    edges: tuple[Edge, ...]
    outlines: Mapping[str, Outline]
    when: Condition = ALWAYS
    cut_offs: tuple[CutOff, ...] = ()
    cut: tuple[CutEntry, ...] = ()
    copies: tuple[Copy, ...] = ()
    interfacing: tuple[Interfacing, ...] = ()
    stretch: Stretch | None = None
    in_step: str | None = None


@dataclass(frozen=True, kw_only=True)
class EdgePart:
    """An edge, or the stretch of it between two named points, `times` times. `piece` may be `as:<role>`."""

    piece: str
    edge: str
    start: str | None = None
    stop: str | None = None
    times: float = 1


@dataclass(frozen=True, kw_only=True)
class Marks:
    """From where both edges of gathers are marked, in words, and how much beside it is not gathered, in mm."""

    start: str
    free_mm: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Seam:
    """Edges sewn together. At most one of ease_mm, ease_percent, gather_ratio; none: equal within 1 mm."""

    name: str
    join: tuple[EdgePart, ...]
    to: tuple[EdgePart, ...]
    ease_mm: tuple[float, float] | None = None
    ease_percent: tuple[float, float] | None = None
    gather_ratio: tuple[float, float] | None = None
    when: Condition = ALWAYS
    marks: Marks | None = None


@dataclass(frozen=True, kw_only=True)
class Between:
    """Distance of two named points of one piece on the stitching line; `along` x or y takes that part only."""

    piece: str
    start: str
    stop: str
    along: Literal["x", "y"] | None = None
    times: float = 1


@dataclass(frozen=True, kw_only=True)
class LinePart:
    """Length of an interior line."""

    piece: str
    line: str
    times: float = 1


@dataclass(frozen=True, kw_only=True)
class Measurement:
    """A finished measurement as a sum of parts (mm); `ease_mm` is what the designer means over the body chart, per kind
    of cloth, `wearing_mm` between what the ease on the child may lie."""

    name: str
    title: str
    parts: tuple[EdgePart | Between | LinePart, ...]
    body: str | None = None
    ease_mm: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    when: Condition = ALWAYS
    wearing_mm: Mapping[str, tuple[float, float]] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Lengthen:
    """Lines across pieces at which the garment is made longer or shorter together, by as much as the finished
    measurement `by` grows from size to size; `where` says it in words."""

    title: str
    where: str
    lines: tuple[LinePart, ...]
    by: str
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class StretchCase:
    """How far a ring stretches where the condition holds, times its own length."""

    times: float
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class PullOn:
    """A ring that is pulled over a part of the body: its parts on the stitching line, and slits that open it further.

    `over` is the body measurement; of `stretches_to` the first case that holds is taken, 1 where none does.
    """

    name: str
    title: str
    over: str
    parts: tuple[EdgePart | Between | LinePart, ...]
    slit: tuple[EdgePart | Between | LinePart, ...] = ()
    stretches_to: tuple[StretchCase, ...] = ()
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class RingRule:
    """Closed elastic: body measurement × factor − minus_mm, + overlap_mm where the ends lie on each other.

    Where the ends are caught in a seam there is a tail of tail_mm at either end, in the place of an overlap.
    """

    body: str
    factor: float = 1.0
    minus_mm: float = 0.0
    overlap_mm: float = 20.0
    tail_mm: float = 0.0


@dataclass(frozen=True, kw_only=True)
class EdgeRule:
    """Length of the notion's edge × times × factor + plus_mm."""

    times: float = 1.0
    factor: float = 1.0
    plus_mm: float = 0.0


@dataclass(frozen=True, kw_only=True)
class PlacedAlong:
    """One piece's part of the line along which closures sit: an interior line, or an edge or a stretch of it.

    It runs as drawn, or from the named point `upper` on; `share` 0.5 is its first half only.
    """

    piece: str
    line: str | None = None
    edge: str | None = None
    start: str | None = None
    stop: str | None = None
    upper: str | None = None
    share: float = 1.0
    when: Condition = ALWAYS


@dataclass(frozen=True, kw_only=True)
class Placed:
    """How buttons or snaps are placed along a line: the first and the last one from its ends, in mm, first case that
    holds; how many, or every `spacing_mm`; in so many `rows`, `each` being the words for "in each of them".

    `below` says in words what the upper end is; `away` is the word before it. A row of one has no `last_mm`.
    Interfacing is looked for along `backing` where it is not on the line's own pieces; the other halves sit along
    `onto`, or, left out, on the other copy of the line's own piece.
    """

    along: tuple[PlacedAlong, ...]
    below: str
    first_mm: tuple[Case, ...]
    last_mm: tuple[Case, ...]
    away: Literal["below", "from"] = "below"
    each: str = ""
    backing: tuple[PlacedAlong, ...] = ()
    onto: tuple[PlacedAlong, ...] = ()
    spacing_mm: float | None = None
    holes: Literal["across", "along"] | None = None
    clear_mm: float | None = None
    clear_of: tuple[tuple[str, str], ...] = ()
    rows: int = 1

    @property
    def lines(self) -> tuple[PlacedAlong, ...]:
        """Every part of every line."""
        return (*self.along, *self.backing, *self.onto)


@dataclass(frozen=True, kw_only=True)
class Channel:
    """How high the channel for an elastic is, from fold to stitching: the sum of the parts, or the allowance of the
    hem's edge, less `less_mm`."""

    parts: tuple[EdgePart | Between | LinePart, ...] = ()
    hem: tuple[str, str] | None = None
    less_mm: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Notion:
    """Something to buy besides cloth. Tabled figures (per size) win over the rule; `kinds` with two: either.

    `passes` are body measurements that a stretched elastic has to go over; `reel_m` is the thread on a reel.
    `thickness_mm` is a button's; `needs` is a plain sentence on what else it takes (a backing, a tool).
    """

    name: str
    title: str
    kinds: tuple[str, ...]
    width_mm: float | None = None
    diameter_mm: float | None = None
    edge: EdgePart | None = None
    rule: RingRule | EdgeRule | None = None
    tabled_mm: Mapping[str, float] = field(default_factory=dict)
    count: int | None = None
    tabled_count: Mapping[str, int] = field(default_factory=dict)
    carried_by: str | None = None
    thickness_mm: float | None = None
    needs: str = ""
    when: Condition = ALWAYS
    placed: Placed | None = None
    passes: tuple[str, ...] = ()
    channel: Channel | None = None
    reel_m: float | None = None


@dataclass(frozen=True, kw_only=True)
class DrawingPart:
    """One piece in a front or back line drawing.

    Without `on` the piece stands as drawn with its point `put` on the garment's centre line; with `on` its point
    `put` is laid on point `on` (piece, point) of another part. Then it is turned by `turn_deg`
    (anticlockwise) about `put`. `keep_line`/`keep_point`: show only that side of an interior line. `both_sides`:
    also its mirror image in the centre line.
    Later parts are drawn over earlier ones.
    """

    piece: str
    put: str
    on: tuple[str, str] | None = None
    turn_deg: float = 0.0
    keep_line: str | None = None
    keep_point: str | None = None
    both_sides: bool = True
    when: Condition = ALWAYS


WORD_MARKS: Final = 0xE000
"""In texts of the guide the sign with this code and those behind it stand for its words, the first for the first word.
Private-use signs, which no font has and no text needs (Unicode, chapter 23)."""

WORDS_MAX: Final = 1_000

MARKED: Final = ("marks", "meets")
"""Words about a seam with gathers: the marks on the gathered edge, and those on the edge that it is sewn to."""


@dataclass(frozen=True)
class StepWord:
    """A word in braces of the guide: what is asked (`cut`, `length`, …), of what, and whether it begins a sentence."""

    kind: str
    of: tuple[str, ...]
    capital: bool = False

    def __str__(self) -> str:
        kind = self.kind.capitalize() if self.capital else self.kind
        return "{" + " ".join((kind, *self.of)) + "}"


@dataclass(frozen=True, kw_only=True)
class Film:
    """Where a step is shown: a file of the pattern's folder or an address, from and to in seconds."""

    file: str | None = None
    address: str | None = None
    from_s: int = 0
    to_s: int | None = None


@dataclass(frozen=True, kw_only=True)
class Step:
    """One sewing step; `text` is Markdown. In title, text and `up` signs from :data:`WORD_MARKS` on stand for words.

    `up` is the face that is up; `sews` the pieces (or `as:<role>`) that are sewn, `uses` the notions, each as a set of
    which whichever is there is meant; `minutes` how long it takes, where that is said. `drawing_seen` are the words in
    which its drawing says what is seen on it.
    """

    title: str
    text: str
    when: Condition = ALWAYS
    up: str = ""
    sews: tuple[tuple[str, ...], ...] = ()
    uses: tuple[tuple[str, ...], ...] = ()
    drawing: str | None = None
    drawing_seen: str = ""
    film: Film | None = None
    techniques: tuple[str, ...] = ()
    minutes: int | None = None
    place: tuple[int, int] = field(default=(1, 1), compare=False)
    """Line and column of its heading in steps.md."""

    @property
    def plain_title(self) -> str:
        """The title without words that depend on size and choices."""
        return "".join("…" if WORD_MARKS <= ord(sign) <= WORD_MARKS + WORDS_MAX else sign for sign in self.title)


@dataclass(frozen=True, kw_only=True)
class BodyChart:
    """Body measurements: `rows[size][column]` in mm (column without `_mm`); `sources` are the header's lines."""

    name: str
    sources: tuple[str, ...]
    rows: Mapping[str, Mapping[str, float]]
    ages: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Sale:
    """How the pattern can be had: for a price at the checkout, or free with a file of the folder to fetch.

    `price` is an amount in the shop's currency as it is printed; `download` is a path inside the pattern's folder.
    """

    price: str | None = None
    free: bool = False
    checkout: str | None = None
    download: str | None = None
    formats: tuple[str, ...] = ()
    languages: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Photograph:
    """A photograph of a sewn garment: `file` inside the pattern's folder, `title` for those who can't see it."""

    file: str
    title: str
    size: str | None = None
    choices: ChoiceSet = field(default_factory=dict)
    cloth: str | None = None


@dataclass(frozen=True, kw_only=True)
class Technique:
    """How something is done, for all patterns: `short` stands in steps, `text` (Markdown) on its own page.

    `drawing` is a file beside it, `seen` what it says is seen on it; `before` the kinds of cloth for which it is read
    before one starts.
    """

    name: str
    title: str
    short: str
    text: str
    drawing: str | None = None
    seen: str = ""
    before: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Shop:
    """What the shop says for all patterns. `accent` is a colour as `#rrggbb`."""

    label: str = ""
    currency: str = "EUR"
    accent: str | None = None
    techniques: tuple[Technique, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """Everything a pattern folder says, and its body chart."""

    folder: str
    name: str
    summary: str
    garment: str
    edition: str
    difficulty: int
    minutes: int
    body_chart: BodyChart
    sizes: tuple[str, ...]
    size_by: tuple[str, ...]
    choices: tuple[Choice, ...]
    rules: tuple[Rule, ...]
    cloths: tuple[Cloth, ...]
    roles: tuple[RolePart, ...]
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    measurements: tuple[Measurement, ...]
    notions: tuple[Notion, ...]
    steps: tuple[Step, ...]
    drawing_front: tuple[DrawingPart, ...] = ()
    drawing_back: tuple[DrawingPart, ...] = ()
    introduction: str = ""
    cautions: tuple[str, ...] = ()
    sale: Sale | None = None
    photographs: tuple[Photograph, ...] = ()
    cloth_plans: tuple[ClothPlan, ...] = ()
    together: tuple[tuple[str, str], ...] = ()
    """Pairs of sizes that are also laid on one length of cloth, each and all in the order of the run."""
    lengthen: tuple[Lengthen, ...] = ()
    words: tuple[StepWord, ...] = ()
    """The words of the guide that are filled in for size and choices."""
    pull_on: tuple[PullOn, ...] = ()
