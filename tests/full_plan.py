"""A plan that writes every key of every table there is, some in both forms."""
# ruff: noqa: E501 - lines as long as owners write them

from __future__ import annotations

_BEAM = """
[[beam]]
name = "{name}"
band = ["14.0 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "{height}"
heading = "300 deg"
material = "6061-T6"
feed = {feed}
mount = {{ kind = "insulated through", boom = ["2 in"], hole = "30 mm" }}
idle_feed = "open"
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  half = [["25.4 mm", "1.83 m", "1.47 mm"], ["22.2 mm", "3.55 m", "1.47 mm"]]
  mount = {{ kind = "bonded above", boom = ["2 in", "1/8 in"], square = true, clearance = "10 mm", plate = ["8 in", "3 in", "1/4 in"], clamp = ["2 in", "1 1/4 in"] }}
  traps = [{{ at = "2.4 m", width = "4 in", inductance = "3 uH", capacitance = "19 pF", quality = 200 }}]
  [[beam.element]]
  role = "driven"
  at = "2.6 m"
  diameter = "22 mm"
  length = "10.1 m"
  insulation = {{ thickness = "1/32 in", permittivity = 2.3 }}
  [[beam.wire]]
  name = "tail"
  diameter = "2 mm"
  points = [[0, 0, 0], [1.2, 3.0, 0]]
  insulation = {{ thickness = "0.8 mm", permittivity = 3.5 }}
"""

_HEAD = """\
boomwright = 1
title = "Everything at once"
dated = "2026-11-25"
[site]
position = "52.20 N, 0.10 E"
locator = "JO02be"
ground = { permittivity = 15, conductivity = "1 mS/m" }
wind = "90 mph"
ice = "0.25 in"
elevation = "75 ft"
wind_basis = { kind = "nominal", edition = "ASCE 7-05", exposure = "B", topography = 1.3, importance = 1.15 }
ice_basis = { gust = "40 mph", mapped = true, density = "56.5 lb/ft3", importance = 1.25 }
"""

_BOOM = """
  [beam.boom]
  diameter = "2 in"
  wall = "1/8 in"
  length = "6.2 m"
  rear_end = "-0.1 m"
  material = "6063-T6"
  clamp = "2.9 m"
  joints = ["1.2 m", "4.6 m"]
  offset = "80 mm"
  drag_area = "0.02 m2"
  tie = { share = "65 %", rise = "0.9 m", area = "12 mm2", elastic_modulus = "100 GPa" }
  [beam.boom.hardware]
  element_plate = ["6 in", "5 in", "1/4 in"]
  mast_plate = ["10 in", "10 in", "3/8 in"]
  sleeve = ["44 mm", "3 mm", "500 mm"]
  element_sleeve = "3 mm"
  boom_clamp = "2 in"
  mast_clamp = "2 in"
  rods = "rearward"
  box_mass = "2 lb"
  box = ["160 mm", "100 mm", "80 mm"]
  capacitor_mass = "0.4 kg"
  capacitor_box = ["120 mm", "80 mm", "60 mm"]
  u_bolt = "8 mm"
  saddle = "30 mm"
  shell = "3 mm"
  insulating_rod = "240 mm"
  tip_plug = "30 mm"
  boom_cap = "3 mm"
  truss_material = "6061-T6"
  truss_eye = ["30 mm", "5 mm"]
  strap = ["20 mm", "3 mm"]
  coupling = ["120 mm", "2 mm"]
  spacer = ["12 mm", "20 mm", "1 m"]
  end_insulator = "30 mm"
  end_insulator_mass = "20 g"
  cord = "3 mm"
  [[beam.boom.fitting]]
  name = "balun"
  at = "2.6 m"
  size = ["120 mm", "80 mm", "60 mm"]
  mass = "1 lb"
  span = "0.2 m"

  [[beam.boom.fitting]]
  name = "brackets as weighed"
  mass = "3 kg"
  stands_for = "element hardware"
"""

_REST = """
[support]
method = "strength"
damping = 0.012
sway = "2.2 Hz"
frost_depth = "20 in"
soil = { name = "tested loam", bearing = "90 kPa", lateral = "100 psf/ft", friction = 0.3, cohesion = "6 kPa", weight = "16 kN/m3" }
[support.tower]
kind = "guyed"
height = "15 m"
section = "10 ft"
legs = 3
mass = "180 kg"
drag_width = "0.25 m"
bending_stiffness = "900 kN m2"
top_drift = "0.2 m"
bracket = "5 m"
joints = "bolts"
  [support.tower.lattice]
  faces = 3
  face_width = "12 in"
  leg = "1 1/4 in"
  brace = "7/16 in"
  braces = 2.2
  [support.tower.rating]
  area = "9 ft2"
  area_rule = "projected"
  area_height = "15 m"
  speed = "70 mph"
  averaging = "fastest mile"
  kind = "nominal"
  exposure = "B"
  edition = "TIA-222-F"
  pressure = "0.9 kPa"
  ice = "0 mm"
  ice_gust = "40 mph"
  mast_extension = "2 m"
  base_moment = "40 kN m"
  base_shear = "4 kN"
  axial = "12 kN"
  section_moment = "9000 lbf ft"
  section_shear = "4 kN"
  leg_load = "30 kN"
  [support.tower.drawing]
  height = "15 m"
  guys = ["7 m", "46 ft"]
  radius = "11 m"
  said_by = "sheet 5, read by the owner in May"
[support.mast]
diameter = "60.3 mm"
wall = "5.5 mm"
bearing = "15 m"
top = "17 m"
rotator_below = "1.5 m"
bearing_mass = "2.4 kg"
material = "steel"
yield_strength = "42 ksi"
[support.hardware]
shelf_mass = "6 kg"
guy_ring_mass = "3 kg"
guy_grip_mass = "0.3 kg"
turnbuckle_mass = "1.4 kg"
house_bracket_mass = "4 kg"
anchor_bolts_mass = "12 kg"
steel = "75 kg/m3"
anchor_rod = "20 mm"
bearing = ["160 mm", "50 mm"]
rotator = ["190 mm", "300 mm"]
shelf = ["300 mm", "6 mm"]
guy_ring = ["50 mm", "8 mm"]
ring_mount = ["200 mm", "120 mm"]

[support.rotator]
place = "mast-mounted"
turning_torque = "60 lbf ft"
holding_torque = "500 N m"
start_stop_torque = "300 N m"
vertical_load = "4 kN"
side_force = "2 kN"
area_inside = "1.5 m2"
area_on_mast = "0.7 m2"
area_rule = "flat"
least_mast = "38 mm"
greatest_mast = "63 mm"
mass = "11 kg"
turning_speed = "1 rpm"
stop_angle = "2 deg"
turning_gust = "20 m/s"
friction = "5 N m"
[[support.ring]]
beam = "low"
turning_torque = "150 N m"
holding_torque = "900 N m"
start_stop_torque = "400 N m"
vertical_load = "3 kN"
side_force = "2 kN"
area = "1.4 m2"
area_rule = "projected"
turning_speed = "1 rpm"
stop_angle = "2 deg"
turning_gust = "20 m/s"
friction = "15 N m"
mass = "45 kg"
drag_area = "0.15 m2"
said_by = "letter of the tower's maker, 2026-03-12"
[[support.guy]]
height = "14 m"
radius = "11 m"
strand = "1/4 in EHS"
tension = "2 kN"
count = 4
first = "NE"
anchor_height = "-0.5 m"
longest_piece = "10 ft"
[[support.guy]]
height = "7 m"
radius = "11 m"
strand = { name = "synthetic 11 mm", breaking_strength = "24 kN", mass = "0.1 kg/m", stiffness = "900 kN", diameter = "11 mm" }
longest_piece = "0 m"
[support.anchor]
length = "0.9 m"
width = "0.6 m"
thickness = "0.5 m"
cover = "0.9 m"
water_table = true
[support.base]
kind = "pad"
width = "1.5 m"
thickness = "0.9 m"
cover = "0.2 m"
stands_out = "0.1 m"
water_table = true
[support.base_loads]
moment = "30 kN m"
shear = "3 kN"
axial = "6 kN"
kind = "nominal"

[transmitter]
power = "1.5 kW"
emission = "morse"
transmit = "2 min"
listen = "3 min"

[line]
type = { name = "foam 1/2 in", impedance = "50 ohm", velocity_factor = 0.88, attenuation = [["10 MHz", "0.7 dB/100 m"], ["100 MHz", "2.2 dB/100 m"]], voltage_limit = "1.4 kV", diameter = "16 mm" }
length = "42 m"
loop = "2.5 m"
choke = ["2000 ohm", "-1500 ohm"]
suppression = "35 dB"
connectors = 4
control_cable = "40 m"
earth_rods = 3
bonding = "12 m"
arresters = 1
choke_cores = 5
[line.hardware]
mass = "0.16 kg/m"
diameter = "10 mm"
control_mass = "0.1 kg/m"
control_diameter = "8 mm"
drip_loop = "0.5 m"
earth_rod = ["2.44 m", "16 mm"]
earth_from = "0.3 m"

[reach]
terrain = "profile.csv"
stack = ["low", "high"]
wanted = ["10 deg", "25 deg"]
ring = "low"
[[reach.far_ground]]
distance = "300 m"
ground = { permittivity = 70, conductivity = "5 S/m" }
drop = "4 m"
[[reach.far_ground]]
distance = "900 m"
ground = "sea water"
drop = "6 m"
[[reach.target]]
name = "north"
position = "60 N, 10 E"
[[reach.target]]
name = "west"
locator = "FN42"
[[reach.layer]]
name = "F2"
lowest = "250 km"
highest = "400 km"

[permits]
country = "us"
boundary = "22 m"
walkway = "30 m"
lightning_rod = "19 m"
crane = "25 m"
on_another_structure = true
power_lines_surveyed = { answer = true, by = "station owner", on = "2026-05-01" }
power_line = [{ name = "lane", distance = "45 m", height = "8 m", voltage = "11 kV" }]
roof = [{ name = "garage", distance = "3 m", height = "4.5 m" }]
local_limit = [{ basis = "Ordinance 12-3", dated = 2024-05-01, ask = "planning office", height = "20 m", setback = "5 m", setback_ratio = "110 %" }]
runway = [{ airport = "XXXX", ends = [["52.1 N, 0.1 E", "14 m"], ["52.12 N, 0.1 E", "15 m"]] }]
exposure = [{ place = "patio", distance = "9 m", height = "1.8 m", bearing = "200 deg", group = "occupational" }]

[prices]
list = "prices.csv"
currency = "usd"
budget = 2500
contingency = "12 %"
tax = "8 %"
concrete_minimum = "1 m3"
old_after = "90 d"
stock = ["12 ft", "6 m"]
kerf = "3 mm"
overlap = "0.1 m"
owned = ["rotator"]
hire = { deliveries = 2, lift_truck_days = 0.5, crane_days = 1, climber_days = 2, permits = 1, engineer_stamps = 1, insurance_years = 3, own_time = "40 h" }

[raising]
trained_climbers = 2
ground_crew = 4
training = { answer = true, by = "climbing school", on = "2026-03-02" }
rescue_plan = { answer = true, by = "climbing school", on = "2026-03-02" }
trained_rigger = { answer = true, by = "rigger", on = "2026-03-02" }
guys_in_the_way = { answer = true, by = "station owner", on = "2026-05-01" }
climbable = { answer = true, by = "maker", on = "2026-05-01" }
level_access = { answer = true, by = "station owner", on = "2026-05-01" }
support_stands = { answer = true, by = "station owner", on = "2026-05-01" }
ground_beyond = { answer = true, by = "neighbour", on = "2026-05-01" }
pulleys_up = { answer = true, by = "owner", on = "2026-05-01" }
holds_sound = { answer = true, by = "owner", on = "2026-05-01" }
ropes_clear = { answer = true, by = "owner", on = "2026-05-01" }
top_rating = "900 N"
forecast_gust = "5 m/s"
mass = "24 kg"
haul_line = { breaking_strength = "22 kN", block_breaking_strength = "30 kN", parts = 2, bearing = "bush", ends = "eye", capstan = { rated_pull = "4.5 kN", fastening = "5 kN", turns = 4 } }
gin_pole = { overhang = "2.5 m", rated_load = "500 N", maximum_overhang = "3 m", offset_angle = "6 deg", tag_slope = "45 deg" }
tram = { span = "40 m", sag = "3 m", breaking_strength = "30 kN", line_mass = "0.3 kg/m", anchor = "6 kN", back_guyed = { answer = true, by = "rigger", on = "2026-05-01" } }
crane = { radius = "12 m", bearing = "60 deg", hook_height = "25 m", capacity = "500 kg", slings = "20 kN", wind_limit = "9 m/s", operator = { answer = true, by = "hirer", on = "2026-05-01" } }
support_crane = { radius = "12 m", hook_height = "25 m" }
lift_truck = { platform_height = "16 m", outreach = "8 m", needed_outreach = "5 m", platform_capacity = "320 kg", wind_limit = "12 m/s", operator = { answer = true, by = "hirer", on = "2026-05-01" }, carries_beam = { answer = true, by = "hirer", on = "2026-05-01" } }
[raising.tilt]
lifter = "gin pole"
lifter_height = "4 m"
line_at = "8 m"
winch_distance = "9 m"
sheave_behind = "0.5 m"
hinged = { answer = true, by = "tower maker", on = "2026-05-01" }
side_guys = { answer = true, by = "station owner", on = "2026-05-01" }
length = "14 m"
allowed_moment = "6 kN m"
hinge_rating = "9 kN"
lifter_rating = "7 kN"
lift_line = "40 kN"
winch = "9 kN"
winch_parts = 2
rope = "40 kN"
ends = "eye"
anchor = "9 kN"
operator_out = "22 m"
back_line = { breaking_strength = "15 kN", line_at = "8 m", distance = "9 m", anchor = "3 kN" }
[[raising.tilt.part]]
name = "rotator"
mass = "14 kg"
at = "13 m"
[[raising.tilt.part]]
name = "cage"
mass = "12 kg"
at = "16 m"

[place]
bands = ["20 m"]
region = 1
highest = "18 m"
lot = ["40 m", "30 m"]
least = "-1 dB"
table = "stations.toml"

[[place.standing]]
name = "gable"
kind = "house bracket"
height = "9 m"
brackets = ["4 m", "6 m"]
diameter = "60.3 mm"
wall = "3.9 mm"

[wish]
beam = "high"
elements = [2, 4]
boom = "7.5 m"
element = "11.5 m"
gain = "7 dBi"
front_to_rear = "18 dB"
rear_angle = "60 deg"
swr = 1.8
matched = true
take_off = "12 deg"
closest = "1.5 m"
even_spacing = true
equal_directors = true
resistance = ["20 ohm", "60 ohm"]
wind_area = "0.9 m2"
mass = "14 kg"
cost = 240
stock = [{ diameter = "3/4 in", length = "6 ft", count = 12, wall = "1.5 mm" }]
cutting_error = "2 mm"
matters = { gain = 1, front_to_rear = 0.5, swr = 0.3 }
frozen = ["beam[0].element[0].at", "beam[1].element[1]"]
bands = [{ band = ["21.0 MHz", "21.45 MHz"], design = "21.2 MHz", driven = 2, handicap = "1 dB" }]

[measured]
sweep = "antenna.s1p"
beam = "low"
day = "2026-01-31"
reference = "75 ohm"
meter = "careful kit"
noise = 0.004
line = { type = "RG-58", length = "30 m", open = "open.s1p", short = "short.s1p", load = "load.s1p" }
moving = { length = "1/32 in", share = "3 %" }
adjust = { elements = [1], stages = [0] }
[measured.tolerance]
cutting = "3 mm"
strap = "4 mm"
component = "2 %"
height = "0.5 m"
ground_factor = 1.5
line_length = "2 %"
line_loss = "20 %"
[[measured.trial]]
sweep = "after.s1p"
day = 2026-02-01
note = "dry, no wind"
moved = [{ element = 1, tips = "-10 mm" }, { stage = 0, longer = "5 mm" }, { stage = 1, more = "-10 %" }]
rise = "1.5 m"
[[measured.probe]]
element = 0
ratio = 0.7
within = "4 %"
frequency = "14.2 MHz"
[[measured.front_to_back]]
ratio = 14
within = 2
[[measured.heading]]
bearing = "315 deg"
readings = [["0 deg", "S9"], ["60 deg", "S6"], ["120 deg", "S5.5"], ["180 deg", "S6"], ["240 deg", "S8"], ["300 deg", "S9 +15 dB"]]
elevation = "8 deg"
frequency = "14.2 MHz"
day = "2026-02-03"
note = "steady carrier"
[[measured.aim]]
sun = "2026-02-03 12:10"
shows = "176 deg"
within = "2 deg"
note = "peak of the noise"
"""

_PLAIN = '{ kind = "split", gap = "40 mm", balun = 4 }'


def with_feed(feed: str) -> str:
    """The full plan with another feed of its lower beam."""
    low = _BEAM.format(name="low", height="12 m", feed=feed)
    high = _BEAM.format(name="high", height="17 m", feed=_PLAIN)
    return _HEAD + low + _BOOM + high + _REST


FULL = with_feed(_PLAIN)

_WIND = FULL[FULL.index("wind = ") : FULL.index("ice = ")]
_BASIS = FULL[FULL.index("wind_basis = ") : FULL.index("ice_basis = ")]
#: the same with the wind by EN 1991-1-4, and with pressures as an engineer states them
WINDS = (
    FULL.replace(_WIND, 'wind = "24 m/s"\n').replace(
        _BASIS,
        'wind_basis = { kind = "characteristic", edition = "EN 1991-1-4", terrain = "II", orography = 1.1, direction = 0.9, season = 0.95, probability = 1.02, air_density = "1.2 kg/m3", reliability_class = 2, load_factor = 1.6 }\n',
    ),
    FULL.replace(_WIND, "").replace(
        _BASIS,
        'wind_basis = { kind = "design", edition = "SIA 261", pressure = [["6 m", "0.75 kPa"], ["18 m", "20 psf"]], by = "an engineer, 2026-03-01", load_factor = 1.5 }\n',
    ),
)

#: one feed of every other kind, all keys written
FEEDS = (
    '{ kind = "hairpin", gap = "40 mm", rod_diameter = "6 mm", rod_spacing = "60 mm", '
    'rod_length = "0.5 m", balun = 1 }',
    '{ kind = "hairpin", gap = "40 mm", inductance = "0.6 uH" }',
    '{ kind = "gamma", rod_diameter = "10 mm", rod_spacing = "100 mm", rod_length = "1.2 m", '
    'capacitance = "60 pF" }',
    '{ kind = "tee", gap = "30 mm", rod_diameter = "10 mm", rod_spacing = "100 mm", '
    'rod_length = "1.2 m", capacitance = "60 pF" }',
    '{ kind = "folded", rod_diameter = "10 mm", rod_spacing = "100 mm", balun = 4 }',
    '{ kind = "quarter-wave", gap = "40 mm", section_impedance = "35 ohm", '
    'section_length = "0.165 wl", velocity_factor = 0.66 }',
    '{ kind = "stub", gap = "40 mm", section_impedance = "50 ohm", section_length = "0.8 m", '
    'velocity_factor = 0.66, stub_length = "1.1 m", stub_end = "short" }',
    '{ kind = "L-section", gap = "40 mm", capacitance = "200 pF", inductance = "0.3 uH", '
    'at_antenna = "shunt capacitor" }',
)

BRACKETED = """\
[support.tube]
diameter = "60.3 mm"
wall = "5.5 mm"
height = "26 ft"
material = "A53 B"
[support.tube.brackets]
heights = ["4.5 m", "20 ft"]
foot = "4.2 m"
side_force = "900 lbf"
vertical_load = "6 kN"
said_by = "builder, 2026-04-02"
"""


def bracketed(*changes: tuple[str, str]) -> str:
    """The full plan with a tube on house brackets in place of tower, guys and footing."""
    start, end = FULL.index("[support.tower]"), FULL.index("[support.mast]")
    text = FULL[:start] + BRACKETED + FULL[end:]
    start, end = text.index("[[support.guy]]"), text.index("[permits]")
    text = text[:start] + text[end:]
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return text
