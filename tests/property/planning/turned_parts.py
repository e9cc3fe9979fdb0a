"""Random turned parts, written as a person would: stepped arbors, bushes, flanged spacers."""

from __future__ import annotations

from hypothesis import strategies as st

HEAD = """
[part]
name = "{name}"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"
"""
FITS = ("", " h9", " h7", " k6", " f7")
BORES = ("", " H7", " H8", " bored")
THREADS = {6: "M5", 8: "M6", 10: "M8", 12: "M10"}


@st.composite
def arbors(draw: st.DrawFn) -> str:
    """Give a stepped arbor: two to five rounds, perhaps fits, centres, a thread, a keyway."""
    sizes = draw(st.lists(st.integers(6, 34), min_size=2, max_size=5))
    bar = max(sizes) + draw(st.integers(1, 3))
    lines = [HEAD.format(name="arbor"), f'[blank]\nbar = "round {bar} x 400"\n']
    seat = draw(st.integers(0, len(sizes) - 1))
    for i, across in enumerate(sizes):
        long = draw(st.integers(6, 45))
        fit = draw(st.sampled_from(FITS))
        last = i == len(sizes) - 1
        if last and across in THREADS and draw(st.booleans()):
            lines.append(f'[round.r{i}]\nthread = "{THREADS[across]}"\nlong = "{long}"\n')
            continue
        taper = i == 0 and draw(st.integers(0, 5)) == 0
        size = f"{across} to {across - 1}" if taper else f"{across}{fit}"
        must = f'must = "run-out to r{seat} within 0.03"\n' if i != seat and fit else ""
        lines.append(f'[round.r{i}]\ndiameter = "{size}"\nlong = "{long}"\n{must}')
    if draw(st.booleans()):
        left_in = "true" if draw(st.booleans()) else "false"
        lines.append(f'[centres]\nboth = "A1.6"\nleft_in = {left_in}\n')
    if draw(st.booleans()):
        lines.append(_keyway(seat, sizes[seat]))
    if draw(st.booleans()):
        lines.append('[chamfer.ends]\non = "left, right"\nsize = "0.5 x 45°"\n')
    return "\n".join(lines)


def _keyway(seat: int, across: int) -> str:
    return (
        f'[keyway.key]\nin = "r{seat}"\nwide = "3 P9"\nleaves = "{across - 1.5}"\n'
        f'long = "5"\nends = "round"\nat = ["left: 0.5 right of r{seat} left", "top"]\n'
    )


@st.composite
def bushes(draw: st.DrawFn) -> str:
    """Give a bush: one round with a bore through it, perhaps a counterbore, edges broken."""
    outside = draw(st.integers(10, 60))
    bore = draw(st.integers(4, max(4, int(outside * 0.8))))
    long = draw(st.integers(5, 60))
    lines = [HEAD.format(name="bush"), _bar(draw, outside, long)]
    fit = draw(st.sampled_from(FITS))
    lines.append(
        f'[round.outside-diameter]\ndiameter = "{outside}{fit}"\nlong = "{long}"\n'
        'must = "run-out to bore within 0.05"\n'
    )
    sizes = [f'"{bore}{draw(st.sampled_from(BORES))} through"']
    if draw(st.booleans()) and bore + 2 < outside - 2:
        sizes.insert(0, f'"{bore + 2} bored x {max(2, long // 3)}"')
    lines.append(f'[hole.bore]\nin = "right"\nsize = [{", ".join(sizes)}]\n')
    if draw(st.booleans()):
        lines.append('[chamfer.rim]\non = "left, right"\nsize = "0.5 x 45°"\n')
    return "\n".join(lines)


def _bar(draw: st.DrawFn, across: int, long: int) -> str:
    over = draw(st.integers(1, 4))
    spare = draw(st.sampled_from((2, 4, 60)))
    return f'[blank]\nbar = "round {across + over} x {long + spare}"\n'


@st.composite
def flanges(draw: st.DrawFn) -> str:
    """Give a flanged spacer: flange and spigot, a bore, perhaps a recess, a ring of holes."""
    flange = draw(st.integers(40, 90))
    spigot = draw(st.integers(16, flange - 20))
    thick, long = draw(st.integers(5, 14)), draw(st.integers(6, 30))
    bore = draw(st.integers(5, max(5, spigot - 6)))
    lines = [HEAD.format(name="flanged spacer"), _bar(draw, flange, thick + long)]
    lines += [
        f'[round.flange]\ndiameter = "{flange}"\nlong = "{thick}"\n',
        (
            f'[round.spigot]\ndiameter = "{spigot}{draw(st.sampled_from(FITS))}"\n'
            f'long = "{long}"\nmust = "run-out to bore within 0.04"\n'
        ),
        f'[hole.bore]\nin = "right"\nsize = "{bore}{draw(st.sampled_from(BORES))} through"\n',
    ]
    if draw(st.booleans()):
        recess = min(bore + 6, flange - 4)
        lines.append(f'[hole.recess]\nin = "flange left"\nsize = "{recess} bored x 2"\n')
    if draw(st.booleans()):
        circle = (flange + spigot) // 2
        lines.append(
            '[hole.ring]\nin = "flange left"\nsize = "4.5 through"\n'
            f'copies = "{draw(st.integers(3, 6))} on {circle} circle, first at top"\n'
            'at = "level with bore"\nmust = "in position to bore within 0.2"\n'
        )
    return "\n".join(lines)


@st.composite
def spigots(draw: st.DrawFn) -> str:
    """Give a spigot of round, hexagon or square bar, a hole in its end, grooves in and out."""
    across = draw(st.integers(12, 36))
    form = draw(st.sampled_from(("round", "hexagon", "square")))
    head, long = draw(st.integers(8, 25)), draw(st.integers(8, 30))
    stem = draw(st.integers(6, across - 4))
    lines = [
        HEAD.format(name="spigot"),
        f'[blank]\nbar = "{form} {across} x {draw(st.sampled_from((head + long + 3, 250)))}"\n',
        f'[round.head]\ndiameter = "{across - 1}"\nlong = "{head}"\n',
        f'[round.stem]\ndiameter = "{stem}{draw(st.sampled_from(FITS))}"\nlong = "{long}"\n',
    ]
    hole = draw(
        st.sampled_from(("", "M6 x 8", "5 x 7", "6 H7 x 8", "6 H7 through", "8.2 bored x 6"))
    )
    if hole:
        face, deep = draw(st.sampled_from((("left", across), ("right", stem))))
        if deep > 11:
            lines.append(f'[hole.bore]\nin = "{face}"\nsize = "{hole}"\n')
    if draw(st.booleans()):
        lines.append(
            f'[groove.ring]\nin = "stem"\nwide = "2"\ndiameter = "{stem - 2}"\n'
            'at = "left: 3 right of stem left"\n'
        )
    return "\n".join(lines)
