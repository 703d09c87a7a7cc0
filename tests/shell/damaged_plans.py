"""Damaged plans: each with the place its fault must name, the line, and words of the remedy."""

from __future__ import annotations

from dataclasses import dataclass

SOUND = """\
boomwright = 1
title = "Two elements for 20 m"

[site]
position = "52.20 N, 0.10 E"
ground = "medium dry"
wind = "40 m/s"
ice = "6 mm"

[site.wind_basis]
kind = "ultimate"
exposure = "C"

[[beam]]
name = "20m"
band = ["14.000 MHz", "14.350 MHz"]
design = "14.175 MHz"
height = "16 m"          # boom above ground
heading = "300 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }

  [[beam.element]]
  role = "reflector"
  at = "0 m"
  half = [["25.4 mm", "1.83 m", "1.47 mm"], ["22.2 mm", "3.40 m"]]

  [[beam.element]]
  role = "driven"
  at = "2.6 m"
  diameter = "22 mm"
  length = "10.1 m"

  [[beam.wire]]
  name = "tail"
  diameter = "2 mm"
  points = [[0, 0, 0], [1.2, 3.0, 0]]
"""


@dataclass(frozen=True, kw_only=True)
class DamagedPlan:
    """One damaged plan.

    ``mark`` is text that stands on the line the fault must name, empty for a plan that has no
    such line; ``remedy`` and ``path`` must appear in the fault.
    """

    name: str
    content: bytes
    path: str
    remedy: str
    mark: str = ""


def _changed(name: str, old: str, new: str, path: str, remedy: str, mark: str = "") -> DamagedPlan:
    assert SOUND.count(old) == 1, f"{name}: the text to damage must stand once"
    content = SOUND.replace(old, new).encode()
    return DamagedPlan(name=name, content=content, path=path, remedy=remedy, mark=mark)


def _raw(name: str, content: bytes, remedy: str, path: str = "plan", mark: str = "") -> DamagedPlan:
    return DamagedPlan(name=name, content=content, path=path, remedy=remedy, mark=mark)


def _added(name: str, table: str, path: str, remedy: str, mark: str) -> DamagedPlan:
    content = f"{SOUND}\n{table}\n".encode()
    return DamagedPlan(name=name, content=content, path=path, remedy=remedy, mark=mark)


_MAST = (
    '[support.mast]\ndiameter = "60 mm"\nwall = "5 mm"\nbearing = "15 m"\ntop = "17 m"\n'
    'material = "steel"\n'
)
_TUBE = '[support.tube]\ndiameter = "114 mm"\nwall = "5 mm"\nheight = "15 m"\nmaterial = "steel"\n'
_GUY = '[[support.guy]]\nheight = "14 m"\nradius = "11 m"\nstrand = "3/16 in EHS"\n'
_BOOM = (
    '  [beam.boom]\n  diameter = "51 mm"\n  wall = "3 mm"\n  length = "3 m"\n'
    '  rear_end = "-0.2 m"\n  material = "6061-T6"\n'
)

_E0, _E1 = "beam[0].element[0]", "beam[0].element[1]"
_SECOND_BEAM = SOUND[SOUND.index("[[beam]]") :]

DAMAGED_PLANS: tuple[DamagedPlan, ...] = (
    _changed("wrong unit", '"16 m"', '"16 kg"', "beam[0].height", "5.18 m", '"16 kg"'),
    _changed("unknown unit", '"14.175 MHz"', '"14.175 Mhz"', "beam[0].design", '"MHz"', "Mhz"),
    _changed("no unit", '"2.6 m"', '"2.6"', f"{_E1}.at", '"2.6 m"', 'at = "2.6"'),
    _changed("decimal comma", '"10.1 m"', '"10,1 m"', f"{_E1}.length", '"10.1 m"', "10,1"),
    _changed("negative length", '"10.1 m"', '"-10.1 m"', f"{_E1}.length", "5.18 m", "-10.1"),
    _changed("zero diameter", '"22 mm"', "0", f"{_E1}.diameter", "25.4 mm", "diameter = 0"),
    _changed("not a number", '"10.1 m"', "nan", f"{_E1}.length", "5.18 m", "length = nan"),
    _changed("infinite", '"10.1 m"', "inf", f"{_E1}.length", "5.18 m", "length = inf"),
    _changed("huge exponent", '"10.1 m"', '"1e999 m"', f"{_E1}.length", "5.18 m", "1e999"),
    _changed(
        "forgotten unit", '"10.1 m"', "4200", f"{_E1}.length", "unit forgotten", "length = 4200"
    ),
    _changed(
        "200 wavelengths", '"10.1 m"', '"1900 m"', f"{_E1}.length", "unit forgotten", "1900 m"
    ),
    _changed("thick tube", '"22 mm"', '"2.2 m"', f"{_E1}.diameter", "25.4 mm", '"2.2 m"'),
    _changed(
        "same place", '"2.6 m"', '"0 m"', f"{_E1}.at", "along the boom by more than", 'at = "0 m"'
    ),
    _changed("touching", '"2.6 m"', '"20 mm"', f"{_E1}.at", "along the boom by more than", "20 mm"),
    _changed(
        "two driven", 'role = "reflector"', 'role = "driven"', f"{_E1}.role", "keep one", '"driven"'
    ),
    _changed(
        "none driven", '"driven"', '"director"', "beam[0].element", '"driven"', "[[beam.element"
    ),
    _changed("unknown role", '"driven"', '"drivne"', f"{_E1}.role", '"driven"', "drivne"),
    _changed("misspelt key", "height =", "heigth =", "beam[0].heigth", '"height"', "heigth"),
    _changed(
        "missing key", 'design = "14.175 MHz"\n', "", "beam[0].design", "design =", "[[beam]]"
    ),
    _changed(
        "missing table",
        '[site]\nposition = "52.20 N, 0.10 E"\nground = "medium dry"\n'
        'wind = "40 m/s"\nice = "6 mm"\n\n[site.wind_basis]\nkind = "ultimate"\n'
        'exposure = "C"\n',
        "",
        "site",
        "[site]",
    ),
    _changed(
        "misspelt ground", '"medium dry"', '"medum dry"', "site.ground", "medium dry", "medum"
    ),
    _changed("misspelt material", '"6061-T6"', '"6061T6"', "beam[0].material", "6061-T6", "6061T6"),
    _changed(
        "reversed band",
        '["14.000 MHz", "14.350 MHz"]',
        '["14.350 MHz", "14.000 MHz"]',
        "beam[0].band",
        "lower edge first",
        "band =",
    ),
    _changed(
        "design far outside", '"14.175 MHz"', '"21.2 MHz"', "beam[0].design", "14.175 MHz", "21.2"
    ),
    _changed(
        "growing outwards",
        '["22.2 mm", "3.40 m"]',
        '["32 mm", "3.40 m"]',
        f"{_E0}.half[1][0]",
        "outwards",
        "32 mm",
    ),
    _changed("wall too thick", '"1.47 mm"', '"12.7 mm"', f"{_E0}.half[0][2]", "wall", "12.7 mm"),
    _changed(
        "half and length",
        'half = [["25.4',
        'length = "10.9 m"\n  half = [["25.4',
        f"{_E0}.half",
        "not both",
        "half =",
    ),
    _changed(
        "no length", '  length = "10.1 m"\n', "", f"{_E1}.length", "add length", "[[beam.element]]"
    ),
    _changed("gap too wide", '"40 mm"', '"10.1 m"', "beam[0].feed.gap", "smaller gap", "gap"),
    _changed("height zero", '"16 m"', '"0 m"', "beam[0].height", "free space", '"0 m"          #'),
    _changed(
        "wire underground",
        "[1.2, 3.0, 0]",
        "[1.2, 3.0, -17]",
        "beam[0].wire[0].points[1]",
        "raise the beam",
        "points",
    ),
    _changed(
        "short point",
        "[1.2, 3.0, 0]",
        "[1.2, 3.0]",
        "beam[0].wire[0].points[1]",
        "[1.2, 3.0, 0]",
        "points",
    ),
    _changed("bare heading", '"300 deg"', "300", "beam[0].heading", "300 deg", "heading = 300"),
    _changed("bad position", "52.20 N, 0.10 E", "52.20, 0.10", "site.position", "0.10 E", "52.20"),
    _changed("off the globe", "52.20 N", "92.20 N", "site.position", "0.10 E", "92.20"),
    _changed(
        "position against locator",
        'ground = "medium',
        'locator = "IO91wm"\nground = "medium',
        "site.locator",
        "keep the one",
        "locator",
    ),
    _changed(
        "bad locator",
        'position = "52.20 N, 0.10 E"',
        'locator = "ZZ99"',
        "site.locator",
        "two letters",
        "ZZ99",
    ),
    _changed("too much wind", '"40 m/s"', '"4000 m/s"', "site.wind", "90 mph", "4000"),
    _changed("wind without unit", '"40 m/s"', "130", "site.wind", '"130 mph" (58.1 m/s)', "130"),
    _changed(
        "wind basis word", '"ultimate"', '"ultimat"', "site.wind_basis.kind", "ultimate", "ultimat"
    ),
    _changed("newer version", "boomwright = 1", "boomwright = 2", "boomwright", "newer", "= 2"),
    _changed(
        "version as text",
        "boomwright = 1",
        'boomwright = "1"',
        "boomwright",
        "boomwright = 1",
        "boomwright =",
    ),
    _changed("list for text", 'name = "20m"', "name = [20]", "beam[0].name", "quotes", "[20]"),
    _changed(
        "control character",
        'name = "20m"',
        'name = "20\\u0007m"',
        "beam[0].name",
        "plain line",
        "u0007",
    ),
    _changed("other digits", '"10.1 m"', '"\u0661\u0660 m"', f"{_E1}.length", "0 to 9", "\u0661"),
    _changed("zero below the line", '"22 mm"', '"1/0 in"', f"{_E1}.diameter", "fraction", "1/0"),
    _changed(
        "beam in single brackets",
        SOUND[SOUND.index("[[beam]]") :],
        '[beam]\nname = "20m"\n',
        "beam",
        "double brackets",
        "[beam]",
    ),
    _changed(
        "quotes forgotten", 'height = "16 m"', "height = 16 m", "plan", 'height = "16 m"', "16 m"
    ),
    _changed(
        "key twice",
        'design = "14.175 MHz"',
        'design = "14.175 MHz"\ndesign = "14.2 MHz"',
        "plan",
        "remove one",
        "14.2 MHz",
    ),
    _changed(
        "open text",
        'title = "Two elements for 20 m"',
        'title = "Two elements',
        "plan",
        "quotes",
        "title",
    ),
    _changed("endless digits", '"22 mm"', "9" * 5000, "plan", "quotes", "99999"),
    _raw("beam name twice", (SOUND + "\n" + _SECOND_BEAM).encode(), "own name", "beam[1].name"),
    _raw("empty file", b"", "boomwright = 1", "boomwright"),
    _raw("binary junk", bytes(range(256)) * 40, "UTF-8"),
    _raw("UTF-16", SOUND.encode("utf-16"), "UTF-8"),
    _raw("ten megabytes", b"#" * 10_000_000, "files of their own"),
    _raw("deep lists", b"x = " + b"[" * 50_000 + b"]" * 50_000, "no part of a plan"),
    _raw("deep tables", b"x" + b".x" * 40_000 + b" = 1", "no part of a plan"),
    _raw("moderately deep", b"x = " + b"[" * 60 + b"]" * 60, "no part of a plan"),
    _changed(
        "feed key of another kind",
        'gap = "40 mm" }',
        'gap = "40 mm", capacitance = "60 pF" }',
        "beam[0].feed.capacitance",
        '"gamma"',
        "60 pF",
    ),
    _changed("feed without gap", ', gap = "40 mm"', "", "beam[0].feed.gap", "add gap", "feed"),
    _changed(
        "rods touching",
        '"split", gap = "40 mm"',
        '"gamma", rod_diameter = "10 mm", rod_spacing = "9 mm"',
        "beam[0].feed.rod_spacing",
        "between axes",
        "rod_spacing",
    ),
    _added(
        "clamp off the boom",
        _BOOM + '  clamp = "3.1 m"',
        "beam[0].boom.clamp",
        "balance point",
        "3.1 m",
    ),
    _added(
        "boom without metal",
        _BOOM.replace('  material = "6061-T6"\n', ""),
        "beam[0].boom.material",
        "material =",
        "[beam.boom]",
    ),
    _added(
        "mast below its bearing",
        _MAST.replace("17 m", "14 m"),
        "support.mast.top",
        "above 15 m",
        "14 m",
    ),
    _added(
        "mast wall too thick",
        _MAST.replace("5 mm", "31 mm"),
        "support.mast.wall",
        "below 30 mm",
        "31 mm",
    ),
    _added(
        "unknown steel",
        _MAST.replace('"steel"', '"A53B"'),
        "support.mast.material",
        '"A53 B"',
        "A53B",
    ),
    _added(
        "tower and tube",
        '[support.tower]\nkind = "guyed"\nheight = "15 m"\n' + _TUBE,
        "support.tube",
        "not both",
        "[support.tube]",
    ),
    _added(
        "guys above the top",
        _TUBE + _GUY.replace("14 m", "16 m"),
        "support.guy[0].height",
        "up to 15 m",
        'height = "16 m"',
    ),
    _added("two guys", _GUY + "count = 2", "support.guy[0].count", "from 3", "count = 2"),
    _added(
        "tension as a mass",
        _GUY + 'tension = "180 kg"',
        "support.guy[0].tension",
        "kgf",
        "180 kg",
    ),
    _added(
        "depth of a pad",
        '[support.base]\nkind = "pad"\nwidth = "1 m"\nthickness = "0.5 m"\ndepth = "1 m"',
        "support.base.depth",
        '"pier"',
        'depth = "1 m"',
    ),
    _added(
        "pier without depth",
        '[support.base]\nkind = "pier"\nwidth = "1 m"',
        "support.base.depth",
        "add depth",
        "[support.base]",
    ),
    _added(
        "unknown soil", '[support]\nsoil = "sandy gravl"', "support.soil", "sandy gravel", "gravl"
    ),
    _added(
        "unknown line",
        '[line]\ntype = "RG-312"\nlength = "40 m"',
        "line.type",
        '"RG-213"',
        "RG-312",
    ),
    _added(
        "loop longer than the line",
        '[line]\ntype = "RG-213"\nlength = "40 m"\nloop = "41 m"',
        "line.loop",
        "loop included",
        "41 m",
    ),
    _added(
        "falling data sheet",
        '[line]\nlength = "40 m"\ntype = { name = "a", impedance = "50 ohm", '
        "velocity_factor = 0.8, "
        'attenuation = [["10 MHz", "2 dB/100 m"], ["1 MHz", "0.6 dB/100 m"]] }',
        "line.type.attenuation[1][0]",
        "rising frequency",
        "1 MHz",
    ),
    _added(
        "power as a voltage",
        '[transmitter]\npower = "400 V"',
        "transmitter.power",
        "400 W",
        "400 V",
    ),
    _added(
        "country in full", '[permits]\ncountry = "England"', "permits.country", '"GB"', "England"
    ),
    _added(
        "no day",
        '[permits]\nlocal_limit = [{ basis = "letter", dated = "31.1.2026" }]',
        "permits.local_limit[0].dated",
        "2026-01-31",
        "31.1.2026",
    ),
    _added(
        "runway with one end",
        '[permits]\nrunway = [{ airport = "XXXX", ends = [["52.1 N, 0.1 E", "14 m"]] }]',
        "permits.runway[0].ends",
        '"15 m"',
        "ends",
    ),
    _added(
        "lines nobody looked for",
        "[permits]\npower_lines_surveyed = false\n"
        'power_line = [{ name = "lane", distance = "45 m", height = "8 m" }]',
        "permits.power_lines_surveyed",
        "walked",
        "false",
    ),
    _added(
        "target nowhere",
        '[reach]\ntarget = [{ name = "Boston" }]',
        "reach.target[0].position",
        "locator",
        "Boston",
    ),
    _added("stack of nobody", '[reach]\nstack = ["20m", "15m"]', "reach.stack[1]", "20m", "15m"),
    _added(
        "currency sign", '[prices]\ncurrency = "\u20ac"', "prices.currency", '"EUR"', "currency"
    ),
    _added(
        "crew as a text",
        '[raising]\nground_crew = "five"',
        "raising.ground_crew",
        "without quotes",
        "five",
    ),
    _added(
        "rescue plan in quotes",
        '[raising]\nrescue_plan = "yes"',
        "raising.rescue_plan",
        "true or false",
        "yes",
    ),
    _added(
        "tilting as a bare yes",
        "[raising]\ntilt_over = true",
        "raising.tilt_over",
        "[raising.tilt]",
        "tilt_over",
    ),
    _added(
        "answer of nobody",
        '[raising]\nlevel_access = { answer = true, on = "2026-05-01" }',
        "raising.level_access.by",
        "add by",
        "level_access",
    ),
    _added(
        "answer on no day",
        '[raising]\nlevel_access = { answer = true, by = "owner", on = "in May" }',
        "raising.level_access.on",
        "2026-01-31",
        "level_access",
    ),
    _added(
        "gin pole without a winch",
        '[raising.tilt]\nlifter = "gin pole"\nlifter_height = "4 m"\nline_at = "8 m"',
        "raising.tilt.winch_distance",
        'winch_distance = "9 m"',
        "[raising.tilt]",
    ),
    _added(
        "winch of a fixed sheave",
        '[raising.tilt]\nlifter = "fixed sheave"\nlifter_height = "4 m"\nline_at = "8 m"\n'
        'winch_distance = "9 m"',
        "raising.tilt.winch_distance",
        "sheave_behind",
        "winch_distance",
    ),
    _added(
        "frozen place that is not there",
        '[wish]\nfrozen = ["beam[0].element[5].at"]',
        "wish.frozen[0]",
        "from 0",
        "element[5]",
    ),
    _added(
        "nothing matters",
        "[wish]\nmatters = { gain = 0 }",
        "wish.matters",
        "above 0",
        "matters",
    ),
    _added(
        "move of nothing",
        '[measured]\nsweep = "a.s1p"\n[[measured.trial]]\nsweep = "b.s1p"\n'
        'moved = [{ tips = "1 mm" }]',
        "measured.trial[0].moved[0]",
        "element = 0",
        "moved",
    ),
)
