"""Lace in rows at random: turned after each, so that every row meets the one before from its end."""

from __future__ import annotations

from .lace import Edge, Lace, Spot, runs, sp, sts


def _next(number: int, noun: str) -> str:
    return f"next {noun}" if number == 1 else f"next {number} {noun}"


def strip(lace: Lace) -> None:
    """Stretches of sc and chain spaces of any length, each filled or passed over in the next row."""
    rng = lace.rng
    parts, made, chains = [], [], 0
    for at in range(rng.randint(2, 5)):
        if at:
            length = rng.randint(1, 5)
            if rng.random() < 0.5:
                parts.append(f"ch {length}, sk next {length} ch" if length > 1 else "ch 1, sk next ch")
                made += sp(length, counted=True)
                chains += length
            else:
                parts.append(f"ch {length}")
                made += sp(length)
        run = rng.randint(2, 6)
        chains += run
        made += sts("sc", run)
        parts.append(f"sc in {_next(run, 'ch')}" if at else f"sc in 2nd ch from hook and in {_next(run - 1, 'ch')}")
    lace.foundation(f"Ch {chains + 1}.", chains + 1)
    said_at_end = rng.random() < 0.3
    turn = ", turn" if said_at_end else ""
    lace.course(", ".join(parts) + turn, made, "strip")
    for _ in range(rng.randint(1, 4)):
        text, made = _over(lace, lace.edge[::-1])
        lace.course(("ch 1, " if said_at_end else rng.choice(("ch 1, turn, ", "turn, ch 1, "))) + text + turn, made, "strip over")


def _over(lace: Lace, edge: Edge) -> tuple[str, Edge]:
    """A row over *edge*, as it is met."""
    rng, parts = lace.rng, []
    made: Edge = []
    for run, space in runs(edge):
        if run:
            parts.append(rng.choice((f"sc in {_next(run, 'sc')}", f"sc in {_next(run, 'sts') if run > 1 else 'next st'}")))
            made += sts("sc", run)
        if space is None:
            continue
        name = f"next ch-{space.length} sp"
        way = rng.random()
        if way < 0.5:
            number = rng.choice((space.length, space.length + 1, 2))
            parts.append(f"{number} sc in {name}" if number > 1 else f"sc in {name}")
            made += sts("sc", number)
        elif way < 0.8:
            length = rng.randint(1, 5)
            parts.append(f"ch {length}, sk {name}")
            made += sp(length)
        else:
            length = rng.randint(1, 4)
            parts.append(f"(sc, ch {length}, sc) in {name}")
            made += [*sts("sc", 1), *sp(length), *sts("sc", 1)]
    return ", ".join(parts), made


def v_stitches(lace: Lace) -> None:
    """V-stitches in the spaces of V-stitches between two edge stitches."""
    rng = lace.rng
    k = rng.randint(3, 12)
    n = 3 * k + 2
    lace.foundation(f"Ch {n + 1}.", n + 1)
    lace.course("sc in 2nd ch from hook and in each ch across", sts("sc", n), "sc row")
    body = "sk next sc, V-st in next sc, sk next sc"
    lace.course(
        f"ch 3 (counts as dc), turn, {rng.choice((f'*{body}; rep from * to last sc, dc in last sc', f'({body}) x {k}, dc in last sc'))}",
        _vs(k), "v row", groups=f"{k} V-sts, 2 dc",
    )
    end = rng.choice(("dc in top of tch", "dc in last dc", "dc in top of ch-3"))
    for _ in range(rng.randint(1, 3)):
        into = rng.choice(("V-st in each ch-1 sp across", "V-st in next V-st; rep from * across", "V-st in next ch-1 sp; rep from * across",
                           "(dc, ch 1, dc) in each ch-1 sp across"))  # fmt: skip
        star = "*" if "rep" in into else ""
        lace.course(f"ch 3 (counts as dc), turn, {star}{into}, {end}", _vs(k), "v over v", groups=f"{k} V-sts, 2 dc" if "V-st" in into else "")
    j = rng.randint(2, 5)
    lace.course(f"ch 3 (counts as dc), turn, {j} dc in each ch-1 sp across, {end}", sts("dc", j * k + 2), "groups over v")


def _vs(number: int) -> Edge:
    return [*sts("dc", 1), *(one for _ in range(number) for one in (*sts("dc", 1), *sp(1), *sts("dc", 1))), *sts("dc", 1)]


def shells(lace: Lace) -> None:
    """Shells of five between single stitches, set off in every other row; a note states the multiple."""
    rng = lace.rng
    k = rng.randint(2, 9)
    lace.foundation(f"Ch {6 * k + 2}.", 6 * k + 2)
    lace.say(rng.choice(("> Multiple of 6 + 2.", "> Worked over a multiple of 6 sts plus 1, plus 1 for the turning ch.", "> Multiple of 6 chains plus 2.")))
    body = "sk next 2 ch, shell in next ch, sk next 2 ch, sc in next ch"
    lace.course(f"sc in 2nd ch from hook, {rng.choice((f'*{body}; rep from * across', f'({body}) x {k}'))}",
                _shell_row(k), "shells", groups=f"{k} shells, {k + 1} sc")
    for at in range(rng.randint(1, 4)):
        if at % 2 == 0:
            body = "shell in next sc, sk next 2 dc, sc in next dc, sk next 2 dc"
            lace.course(
                f"ch 3 (counts as dc), turn, 2 dc in first sc, sk next 2 dc, sc in next dc, sk next 2 dc, "
                f"{rng.choice((f'*{body}; rep from * to last sc', lace.times(body, k - 1)))}, 3 dc in last sc",
                [*sts("dc", 3), *sts("sc", 1), *(one for _ in range(k - 1) for one in (*sts("dc", 5), *sts("sc", 1))), *sts("dc", 3)],
                "half shells",
            )
        else:
            body = "sk next 2 dc, shell in next sc, sk next 2 dc, sc in next dc"
            end = rng.choice(("sc in top of tch", "sc in last dc"))
            rest = f"{lace.times(body, k - 1)}, sk next 2 dc, shell in next sc, sk next 2 dc, {end}" if k > 1 else ""
            lace.course(f"ch 1, turn, sc in first dc, {rest}", _shell_row(k), "shells over", groups=f"{k} shells, {k + 1} sc")


def _shell_row(number: int) -> Edge:
    return [*sts("sc", 1), *(one for _ in range(number) for one in (*sts("dc", 5), *sts("sc", 1)))]


def filet(lace: Lace) -> None:
    """Filet mesh with blocks at random: each cell is two chains or two dc wide, with a dc between them."""
    rng = lace.rng
    w = rng.randint(3, 9)
    lace.foundation(f"Ch {3 * w + 3}.", 3 * w + 3)
    lace.course("dc in 4th ch from hook (3 skipped ch count as dc) and in each ch across", sts("dc", 3 * w + 1), "dc row")
    cells, began = [True] * w, 3  # of the row below, in the order in which it was made; True is a block
    for _ in range(rng.randint(1, 5)):
        below, cells = cells[::-1], [rng.random() < 0.5 for _ in range(w)]
        text, made = _filet_row(lace, cells, below, began)
        began = 3 if cells[0] else 5
        blocks = sum(cells)
        groups = f"{blocks} {'block' if blocks == 1 else 'blocks'}" if 0 < blocks < w and not any(one.counted for one in made) else ""
        lace.course(text, made, "filet", groups=groups)


def _filet_row(lace: Lace, cells: list[bool], below: list[bool], began: int) -> tuple[str, Edge]:
    rng = lace.rng
    parts = ["ch 3 (counts as dc), turn" if cells[0] else "ch 5 (counts as dc, ch 2), turn"]
    made: Edge = sts("dc", 1)
    for at, (block, under) in enumerate(zip(cells, below, strict=True)):
        last = at == len(cells) - 1
        top = rng.choice((f"{3 if began == 5 else 'top'}{'rd ch' if began == 5 else ''} of {'beg ch-5' if began == 5 else 'tch'}", "last dc"))
        dc = f"dc in {top}" if last else "dc in next dc"
        if block and under:
            parts.append("dc in next 2 dc, " + dc if last else "dc in next 3 dc")
            made += sts("dc", 3)
        elif block:
            parts.append(f"2 dc in next ch-2 sp, {dc}")
            made += sts("dc", 3)
        else:
            passed = "sk next 2 dc" if under else "sk next ch-2 sp"
            if at == 0:
                parts.append(f"{passed}, {dc}")
            else:
                parts.append(f"ch 2, {passed}, {dc}" if under or rng.random() < 0.6 else f"ch 2, {dc}")
            made += [Spot("sp", 2, counted=under and at > 0), *sts("dc", 1)]
    return ", ".join(parts), made


def edged(lace: Lace) -> None:
    """A plain or shaped piece in rows with an edging: a place for every stitch and row end, laid out one by one."""
    rng = lace.rng
    width, rows = rng.randint(4, 24), rng.randint(2, 30)
    lace.foundation(f"Ch {width + 1}.", width + 1)
    lace.course("sc in 2nd ch from hook and in each ch across", sts("sc", width), "sc row", f" ({width})")
    bottom = [["sc"] for _ in range(width)]
    shaped = rng.random() < 0.4
    for _ in range(rows - 1):
        if shaped and rng.random() < 0.5:
            lace.course("ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st", sts("sc", len(lace.edge) + 2), "sc row", f" ({len(lace.edge) + 2})")
        else:
            lace.course("ch 1, turn, sc in each st across", sts("sc", len(lace.edge)), "sc row", f" ({len(lace.edge)})")
    per, corner = rng.randint(1, 2), rng.randint(2, 3)
    side = [["sc"] * per for _ in range(rows)]
    if rng.random() < 0.3:
        words = rng.choice((f"sc evenly down the side, working {per} sc in each row end", f"do not turn, {per} sc in each row-end along the side",
                            f"work {per} sc in the end of each row"))  # fmt: skip
        lace.course(f"ch 1, {words}", _worked(side), "edging", f" ({len(_worked(side))})")
    else:
        _around(lace, [[["sc"] for _ in lace.edge], side, bottom, [list(end) for end in side]], per, corner)
    lace.course("ch 1, turn, sc in each st across", sts("sc", len(lace.edge)), "sc row", f" ({len(lace.edge)})")


def _around(lace: Lace, sides: list[list[list[str]]], per: int, corner: int) -> None:
    """Four sides, and *corner* stitches in each corner: on its own, in the last place of the side, or in that and the first of the next."""
    way = lace.rng.randrange(3) if per == 1 else 0
    made: list[str] = []
    for side in sides:
        places = side[0 if way < 2 else 1 : len(side) - (way > 0)]
        made += [stitch for place in places for stitch in place] + ["sc"] * corner
    words = lace.rng.choice((
        f"1 sc in each st, {per} sc in each row end, {corner} sc in each corner, {lace.join('first sc')}",
        f"sc evenly around, working {per} sc in each row end, 1 sc in each st and {corner} sc in each corner, {lace.join('first sc')}",
        f"sc around: 1 sc in each st, {per} sc in each row-end, {corner} sc in each corner",
    ))
    lace.course(f"ch 1, {words}", sts("sc", len(made)), "edging", f" ({len(made)})")


def _worked(side: list[list[str]]) -> Edge:
    return [Spot(stitch) for place in side for stitch in place]


PIECES = {"edged": edged, "strip": strip, "v": v_stitches, "shells": shells, "filet": filet}
