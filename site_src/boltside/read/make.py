"""Makes the frozen models from a book that has no problems left. All of them, so longer than 400 lines."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from boltside.pattern import (
    ALWAYS,
    Alternative,
    Between,
    BodyChart,
    Carried,
    Case,
    Channel,
    Choice,
    Cloth,
    ClothPlan,
    ClothRepeat,
    Copy,
    CutEntry,
    CutOff,
    DrawingPart,
    Edge,
    EdgePart,
    EdgeRule,
    Film,
    Interfacing,
    KindCase,
    Lengthen,
    LinePart,
    Marks,
    Measurement,
    NapCase,
    Notion,
    Pattern,
    Photograph,
    Piece,
    Placed,
    PlacedAlong,
    PullOn,
    RingRule,
    RolePart,
    RolePlay,
    Rule,
    Sale,
    Seam,
    Step,
    StretchCase,
)
from boltside.read import document as doc
from boltside.read.book import AS, Book
from boltside.read.combinations import condition
from boltside.read.seen import seen_on
from boltside.read.steps import StepText

INTERFACING = "interfacing"


def make_pattern(book: Book, chart: BodyChart, folder: str) -> Pattern:
    """The pattern. The book must have no errors."""
    it = book.document
    return Pattern(
        folder=folder,
        name=it.name,
        summary=it.summary,
        garment=it.garment,
        edition=it.edition,
        difficulty=it.difficulty,
        minutes=it.minutes,
        body_chart=chart,
        sizes=tuple(it.sizes),
        size_by=tuple(it.size_by),
        choices=tuple(_choice(name, one) for name, one in it.choices.items()),
        rules=tuple(_rule(one) for one in it.rules),
        cloths=tuple(_cloth(name, one) for name, one in it.cloths.items()),
        roles=tuple(_role(book, name, plays) for name, plays in it.roles.items()),
        pieces=tuple(_piece(book, name, one) for name, one in book.pieces.items()),
        seams=tuple(_seam(one) for one in it.seams),
        measurements=tuple(_measurement(one) for one in it.measurements),
        lengthen=tuple(_lengthen(one) for one in it.lengthen),
        pull_on=tuple(_pull_on(one) for one in it.pull_on),
        notions=tuple(_notion(one) for one in it.notions),
        steps=tuple(_step(one, book.folder) for one in book.steps),
        words=tuple(book.words.numbers),
        drawing_front=tuple(_drawing(one) for one in it.drawing.front),
        drawing_back=tuple(_drawing(one) for one in it.drawing.back),
        introduction=book.introduction,
        cautions=tuple(it.cautions),
        sale=_sale(it.sale) if it.sale is not None else None,
        photographs=tuple(_photograph(one) for one in it.photographs),
        cloth_plans=tuple(_cloth_plan(name, one) for name, one in it.cloth_plans.items()),
        together=_together(it),
    )


def _together(it: doc.PatternDoc) -> tuple[tuple[str, str], ...]:
    """Each pair, and all of them, in the order of the run."""
    pairs = sorted(sorted(it.sizes.index(size) for size in pair) for pair in it.together)
    return tuple((it.sizes[one], it.sizes[other]) for one, other in pairs)


def _step(one: StepText, folder: Path) -> Step:
    head, film = one.head, one.head.film
    return Step(
        title=one.title,
        text=one.text,
        when=condition(head.when),
        up=head.up,
        sews=tuple(tuple(one) for one in head.sews),
        uses=tuple(tuple(one) for one in head.uses),
        drawing=head.drawing,
        drawing_seen=seen_on(folder / head.drawing) if head.drawing else "",
        film=None if film is None else Film(file=film.file, address=film.address, from_s=film.from_s, to_s=film.to_s),
        techniques=tuple(head.technique),
        minutes=head.minutes,
        place=one.place,
    )


def _choice(name: str, one: doc.ChoiceDoc) -> Choice:
    return Choice(
        name=name,
        title=one.title,
        about=one.about or "",
        default=one.default,
        asked_when=condition(one.asked_when),
        steps_only=one.steps_only,
        alternatives=tuple(
            Alternative(
                name=word,
                title=part.title,
                about=part.about or "",
                difficulty=part.difficulty,
                minutes=part.minutes,
            )
            for word, part in one.alternatives.items()
        ),
    )


def _rule(one: doc.RuleDoc) -> Rule:
    return Rule(
        when=condition(one.when),
        needs=condition(one.needs) if one.needs is not None else None,
        excludes=condition(one.excludes) if one.excludes is not None else None,
        only_sizes=tuple(one.only_sizes) if one.only_sizes is not None else None,
        advice=one.advice,
        because=one.because,
    )


def _cloth(name: str, one: doc.ClothDoc) -> Cloth:
    kinds = tuple(dict.fromkeys(word for case in one.kinds for word in case.kinds))
    return Cloth(
        name=name,
        title=one.title,
        kinds=kinds,
        usual_width_mm=one.usual_width_mm,
        widths_mm=tuple(sorted(one.widths_mm)),
        ways=tuple(one.ways),
        remnant_widths_mm=tuple(one.remnant_widths_mm),
        nap=_nap(one.nap, kinds),
        kind_cases=_kind_cases(one.kinds, kinds),
        repeats=tuple(
            ClothRepeat(
                name=word, title=part.title, along_mm=part.along_mm, across_mm=part.across_mm, even=part.even
            )
            for word, part in one.repeats.items()
        ),
    )


def _cloth_plan(name: str, one: doc.ClothPlanDoc) -> ClothPlan:
    words = {choice: tuple(dict.fromkeys(words)) for choice, words in one.choices.items()}
    return ClothPlan(name=name, title=one.title, choices=words)


def _nap(cases: Sequence[doc.NapCaseDoc] | None, kinds: tuple[str, ...]) -> tuple[NapCase, ...]:
    """The cases, completed so that the last one always holds."""
    if cases is None:
        return (NapCase(nap="never" if kinds == (INTERFACING,) else "ask"),)
    made = [NapCase(nap=one.nap, when=condition(one.when)) for one in cases]
    return tuple(made) if made[-1].when == ALWAYS else (*made, NapCase(nap="ask"))


def _kind_cases(cases: Sequence[doc.KindCaseDoc], kinds: tuple[str, ...]) -> tuple[KindCase, ...]:
    """The cases; plain words are one case that always holds."""
    if all(one.when is None for one in cases):
        return (KindCase(kinds=kinds),)
    return tuple(KindCase(kinds=tuple(one.kinds), when=condition(one.when)) for one in cases)


def _cases(cases: Sequence[doc.CaseDoc] | None, otherwise_mm: float | None) -> tuple[Case, ...]:
    """The cases; the last always holds when `otherwise_mm` says what is taken if none does."""
    made = [Case(mm=one.mm, when=condition(one.when)) for one in cases or ()]
    if otherwise_mm is not None and not any(one.when == ALWAYS for one in made):
        made.append(Case(mm=otherwise_mm))
    return tuple(made)


def _role(book: Book, name: str, plays: Sequence[doc.RolePlayDoc]) -> RolePart:
    part = book.document.pieces.get(AS + name, doc.PieceDoc())
    usual_mm = book.document.allowance_mm
    return RolePart(
        role=name,
        plays=tuple(RolePlay(piece=one.piece, when=condition(one.when)) for one in plays),
        allowances_mm={edge.name: _cases(edge.allowance_mm, None) for edge in part.edges},
        cut_offs=_cut_offs(part, usual_mm),
        cut=_cut(part),
        copies=_copies(part),
        interfacing=_interfacing(part),
    )


def _piece(book: Book, name: str, one: doc.PieceDoc) -> Piece:
    usual_mm = book.document.allowance_mm
    return Piece(
        name=name,
        title=one.title or name,
        drawn=one.drawn or book.document.drawn,
        grain=one.grain or "lengthwise",
        stretch=one.stretch,
        edges=tuple(
            Edge(
                name=edge.name,
                start=edge.start or "",
                via=edge.via,
                allowance_mm=_cases(edge.allowance_mm, book.usual_allowance_mm(name, edge.name)),
            )
            for edge in one.edges
        ),
        outlines={size: book.outlines[name][size] for size in book.document.sizes},
        when=condition(one.when),
        cut_offs=_cut_offs(one, usual_mm),
        cut=_cut(one),
        copies=_copies(one),
        interfacing=_interfacing(one),
        in_step=one.in_step,
    )


def _cut_offs(part: doc.PieceDoc, usual_mm: float | None) -> tuple[CutOff, ...]:
    return tuple(
        CutOff(
            line=one.line,
            keep=one.keep,
            edge=one.edge,
            allowance_mm=_cases(one.allowance_mm, usual_mm),
            when=condition(one.when),
        )
        for one in part.cut_offs
    )


def _cut(part: doc.PieceDoc) -> tuple[CutEntry, ...]:
    return tuple(
        CutEntry(
            cloth=one.cloth,
            mode=one.mode,
            count=one.count,
            fold_edge=one.fold_edge,
            face=one.face,
            when=condition(one.when),
        )
        for one in part.cut
    )


def _copies(part: doc.PieceDoc) -> tuple[Copy, ...]:
    return tuple(
        Copy(
            name=name,
            carries=tuple(Carried(what=thing.what, when=condition(thing.when)) for thing in one.carries),
            drawn=one.drawn,
            when=condition(one.when),
        )
        for name, one in part.copies.items()
    )


def _interfacing(part: doc.PieceDoc) -> tuple[Interfacing, ...]:
    return tuple(
        Interfacing(
            cloth=one.cloth,
            area=None if one.area == "whole" else one.area,
            to=one.to,
            copies=tuple(one.copies),
            when=condition(one.when),
        )
        for one in part.interfacing
    )


def _edge_part(one: doc.EdgePartDoc) -> EdgePart:
    piece, _, edge = one.edge.partition(".")
    return EdgePart(piece=piece, edge=edge, start=one.start, stop=one.stop, times=one.times)


def _range(pair: Sequence[float] | None) -> tuple[float, float] | None:
    return (pair[0], pair[1]) if pair is not None else None


def _seam(one: doc.SeamDoc) -> Seam:
    return Seam(
        name=one.name,
        join=tuple(_edge_part(part) for part in one.join),
        to=tuple(_edge_part(part) for part in one.to),
        ease_mm=_range(one.ease_mm),
        ease_percent=_range(one.ease_percent),
        gather_ratio=_range(one.gather_ratio),
        when=condition(one.when),
        marks=Marks(start=one.marks.start, free_mm=one.marks.free_mm) if one.marks is not None else None,
    )


def _sum_part(one: doc.SumPartDoc) -> EdgePart | Between | LinePart:
    if one.between is not None:
        piece, _, start = one.between[0].partition(".")
        stop = one.between[1].partition(".")[2]
        return Between(piece=piece, start=start, stop=stop, along=one.along, times=one.times)
    piece, _, name = (one.edge or one.line or "").partition(".")
    if one.edge is not None:
        return EdgePart(piece=piece, edge=name, start=one.start, stop=one.stop, times=one.times)
    return LinePart(piece=piece, line=name, times=one.times)


def _measurement(one: doc.MeasurementDoc) -> Measurement:
    return Measurement(
        name=one.name,
        title=one.title,
        parts=tuple(_sum_part(part) for part in one.sum),
        body=one.body,
        ease_mm={kind: (pair[0], pair[1]) for kind, pair in one.ease_mm.items()},
        when=condition(one.when),
        wearing_mm={kind: (pair[0], pair[1]) for kind, pair in one.wearing_mm.items()},
    )


def _lengthen(one: doc.LengthenDoc) -> Lengthen:
    lines = tuple(LinePart(piece=piece, line=line) for piece, _, line in (name.partition(".") for name in one.lines))
    return Lengthen(title=one.title, where=one.where, lines=lines, by=one.by, when=condition(one.when))


def _notion(one: doc.NotionDoc) -> Notion:
    return Notion(
        name=one.name,
        title=one.title,
        kinds=tuple(one.kind),
        width_mm=one.width_mm,
        diameter_mm=one.diameter_mm,
        edge=_edge_part(one.edge) if one.edge is not None else None,
        rule=_notion_rule(one.rule) if one.rule is not None else None,
        tabled_mm=dict(one.tabled_mm),
        count=one.count,
        tabled_count=dict(one.tabled_count),
        carried_by=one.carried_by,
        thickness_mm=one.thickness_mm,
        needs=one.needs or "",
        when=condition(one.when),
        placed=_placed(one.placed) if one.placed is not None else None,
        passes=tuple(one.passes),
        channel=_channel(one.channel) if one.channel is not None else None,
        reel_m=one.reel_m,
    )


def _channel(one: doc.ChannelDoc) -> Channel:
    piece, _, edge = (one.hem or "").partition(".")
    return Channel(
        parts=tuple(_sum_part(part) for part in one.sum),
        hem=(piece, edge) if one.hem is not None else None,
        less_mm=one.less_mm,
    )


def _pull_on(one: doc.PullOnDoc) -> PullOn:
    return PullOn(
        name=one.name,
        title=one.title,
        over=one.over,
        parts=tuple(_sum_part(part) for part in one.sum),
        slit=tuple(_sum_part(part) for part in one.slit),
        stretches_to=tuple(StretchCase(times=case.times, when=condition(case.when)) for case in one.stretches_to or ()),
        when=condition(one.when),
    )


def _placed(one: doc.PlacedDoc) -> Placed:
    return Placed(
        along=tuple(_placed_along(part) for part in one.along),
        below=one.below or one.start or "",
        away="below" if one.below is not None else "from",
        first_mm=_cases(one.first_mm, None),
        last_mm=_cases(one.last_mm, None),
        spacing_mm=one.spacing_mm,
        holes=one.holes,
        clear_mm=one.clear_mm,
        clear_of=tuple((piece, point) for piece, _, point in (name.partition(".") for name in one.clear_of)),
        rows=one.rows,
        each=one.each or "",
        backing=tuple(_placed_along(part) for part in one.backing or ()),
        onto=tuple(_placed_along(part) for part in one.onto or ()),
    )


def _placed_along(one: doc.PlacedAlongDoc) -> PlacedAlong:
    piece, _, name = (one.line or one.edge or "").partition(".")
    return PlacedAlong(
        piece=piece,
        line=name if one.line is not None else None,
        edge=name if one.edge is not None else None,
        start=one.start,
        stop=one.stop,
        upper=one.upper,
        share=one.share,
        when=condition(one.when),
    )


def _notion_rule(one: doc.NotionRuleDoc) -> RingRule | EdgeRule:
    if one.take == "ring":
        said = {"factor": one.factor, "minus_mm": one.minus_mm, "overlap_mm": one.overlap_mm, "tail_mm": one.tail_mm}
        if one.tail_mm is not None:
            said["overlap_mm"] = 0.0
        return RingRule(body=one.body or "", **{key: value for key, value in said.items() if value is not None})
    said = {"times": one.times, "factor": one.factor, "plus_mm": one.plus_mm}
    return EdgeRule(**{key: value for key, value in said.items() if value is not None})


def _drawing(one: doc.DrawingPartDoc) -> DrawingPart:
    on: tuple[str, str] | None = None
    if one.on is not None:
        piece, _, point = one.on.partition(".")
        on = (piece, point)
    return DrawingPart(
        piece=one.piece,
        put=one.put,
        on=on,
        turn_deg=one.turn_deg,
        keep_line=one.keep.line if one.keep else None,
        keep_point=one.keep.point if one.keep else None,
        both_sides=one.both_sides,
        when=condition(one.when),
    )


def _sale(one: doc.SaleDoc) -> Sale:
    return Sale(
        price=one.price,
        free=one.free,
        checkout=one.checkout,
        download=one.download,
        formats=tuple(one.formats),
        languages=tuple(one.languages),
    )


def _photograph(one: doc.PhotographDoc) -> Photograph:
    return Photograph(file=one.file, title=one.title, size=one.size, choices=dict(one.choices), cloth=one.cloth)
