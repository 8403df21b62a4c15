// What each field is called and the unit that a bare number is taken in. One row a field:
// [name in the shop, label, unit or sort, hint]. A sort is "text", "check" or a list of choices.

const both = (unit) => ({ us: unit, metric: unit });

/** Unit of a bare number, by unit system. */
export const UNITS = {
  flow: { us: "cfm", metric: "L/min" },
  pressure: { us: "psi", metric: "bar" },
  stamp: { us: "psi", metric: "bar" },
  volume: { us: "gal", metric: "L" },
  power: { us: "hp", metric: "kW" },
  length: { us: "ft", metric: "m" },
  bore: { us: "in", metric: "mm" },
  wire: { us: "AWG", metric: "mm²" },
  barometer: { us: "inHg", metric: "hPa" },
  warmth: { us: "°F", metric: "°C" },
  mass: { us: "lb", metric: "kg" },
  stroke: { us: "ft³ a stroke", metric: "L a stroke" },
  droop: { us: "psi/cfm", metric: "bar per 100 L/min" },
  volts: both("V"),
  amps: both("A"),
  kva: both("kVA"),
  share: both("%"),
  seconds: both("s"),
  times: both("s"),
  minutes: both("min"),
  hours: both("h"),
  level: both("dBA"),
  loss: both("dB"),
  money: both("money"),
  tariff: both("money a kWh"),
  count: both("how many"),
};

/** Sorts that need letters, fractions or signs, which a phone's decimal keypad lacks. */
export const LETTERS = new Set(["text", "wire", "bore", "power", "start", "times", "stamp"]);

const MACHINES = [
  ["piston_one_stage", "piston, one stage"],
  ["piston_two_stage", "piston, two stages"],
  ["rotary", "screw, scroll or vane"],
];

/** Kinds of task, in the order in which an airframe meets them. */
export const TASKS = [
  ["drill", "Drill to size"],
  ["deburr", "Deburr and countersink"],
  ["rivet_gun", "Rivet gun and bucking bar"],
  ["back_rivet", "Back-riveting run"],
  ["squeezer", "Squeezer"],
  ["rivet_puller", "Rivet puller"],
  ["cleco_tool", "Cleco tool"],
  ["blow_off", "Blow-off"],
  ["die_grinder", "Die grinder"],
  ["sander", "Orbital sander"],
  ["primer_gun", "Primer gun"],
  ["paint_gun", "Full paint gun"],
  ["other", "Another air tool"],
];

/** The rest of a compressor's plate. */
export const PLATE = [
  ["What it is", [
    ["name", "Name of it", "text", "Make and model, or any name"],
    ["kind", "What compresses", MACHINES],
    ["flow2", "Second flow", "flow", "Many labels state two"],
    ["at2", "at pressure", "pressure"],
    ["cut_in", "Cut-in", "pressure", "Where the switch starts the motor"],
    ["cut_out", "Cut-out", "pressure", "Where it stops it"],
    ["duty", "Duty", "share", "Share of time that it may run"],
    ["start", "Starting current", "start", "Code letter, amps (60 A) or multiple (6x)"],
    ["pump", "Pump type", "text", "oil-free, oiled, belt drive, two-stage"],
    ["stamp", "Tank stamped for", "stamp", "e.g. 150 psi, or “no stamp”"],
    ["relief", "Relief valve opens at", "stamp", "e.g. 150 psi, or “blocked”"],
  ]],
  ["Sound, weight, money", [
    ["sound", "Sound", "level"],
    ["sound_at", "taken at", "length"],
    ["sound_power", "or sound power", "level", "Labels in Europe: LWA"],
    ["weight", "Weight", "mass"],
    ["price", "Price", "money"],
    ["wheels", "It rolls on wheels", "check"],
  ]],
  ["Measured", [
    ["pump_from", "Pump-up from", "pressure", "0 is a drained tank: the surest"],
    ["pump_to", "to", "pressure", "Blank is from cut-in to cut-out"],
    ["pump_up", "Pump-up time", "times", "Outlet and second tank shut off, tank cool. Several runs: “182 s; 179 s”, apart by “;” or “ / ”"],
    ["leak_from", "Leak-down from", "pressure", "Blank is cut-out"],
    ["leak_to", "to", "pressure", "20 psi (1.4 bar) or above"],
    ["leak_time", "Leak-down time", "times", "Motor off, nothing drawn, tank cooled down first"],
  ]],
];

export const PLACE = [
  ["Air", [
    ["name", "Name of the place", "text"],
    ["altitude", "Altitude", "length"],
    ["temperature", "Air temperature", "warmth"],
    ["humidity", "Humidity", "share"],
    ["station_pressure", "Barometer", "barometer", "As read there, not reduced to sea level; goes before the altitude"],
  ]],
  ["Circuit", [
    ["volts", "Volts at the panel", "volts"],
    ["breaker", "Breaker", "amps"],
    ["other_load", "Other loads on it", "amps"],
    ["outlet", "Outlet", "text", "5-15, 5-20, 6-20, 14-50, 10-30, hard-wired, Schuko, BS 1363"],
    ["adapter", "Adapter", "text", "Blank is none; e.g. two-prong"],
    ["gfci", "GFCI", "text", "yes, no, or “trips at start”"],
    ["generator", "Generator", "kva", "Blank is the grid"],
    ["generator_stands", "Generator stands", "text", "e.g. outdoors, 20 ft from doors"],
    ["branch_gauge", "Wire in the wall", "wire"],
    ["branch_length", "its length", "length", "Panel to outlet, one way"],
    ["wire_metal", "its metal", "text", "copper or aluminum"],
    ["spare_volts", "Spare circuit", "volts", "One that could be had here"],
    ["spare_breaker", "its breaker", "amps"],
    ["machine_comes", "Compressor comes here", "text", "yes or no; a stationary one stays at the first place"],
  ]],
  ["Cord", [
    ["cord_gauge", "Cord", "wire", "Blank is no cord"],
    ["cord_length", "its length", "length"],
    ["cord_planned", "No cord yet: how far", "length", "Outlet to compressor"],
  ]],
  ["Who is near", [
    ["listener", "Your ears", "length", "From the compressor"],
    ["neighbour", "Nearest neighbour", "length"],
    ["wall_loss", "Walls take away", "loss", "On the way to the neighbour"],
    ["inlet_ducted", "Inlet ducted outdoors", "check"],
    ["boxed", "Stands in a sound box", "check"],
    ["box_size", "its size", "text", "e.g. 4 x 3 x 3 ft"],
    ["box_fan", "Fan in that box", "flow"],
  ]],
  ["Around it", [
    ["airplane", "Airplane in the building", "text", "fueled, never fueled, or none"],
    ["compressor_stands", "Where the compressor stands", "text", "e.g. outside; 18 in up, 5 ft from the airplane"],
  ]],
];

export const TASK = [
  ["The tool", [
    ["kind", "What it is", TASKS],
    ["name", "Your name for it", "text"],
    ["flow", "Free air on the trigger", "flow"],
    ["setting", "Pressure at the tool", "pressure", "Running"],
    ["lowest", "Lowest useful", "pressure"],
    ["people", "People at once", "count"],
  ]],
  ["If it sprays", [
    ["gun", "Spray gun", "text", "touch-up, LVLP, HVLP or conventional"],
    ["paint", "What it sprays", "text", "e.g. two-part urethane, chromate primer"],
    ["sprayed", "Where it is sprayed", "text", "e.g. booth, outdoors, beside the compressor"],
  ]],
  ["Its rhythm", [
    ["trigger_on", "On the trigger", "seconds"],
    ["trigger_off", "off it", "seconds"],
    ["spell", "Spell of work", "minutes", "How long that rhythm lasts"],
    ["pause", "Pause after it", "minutes", "Clamping, fetching, reading plans"],
  ]],
];

export const LINE = [
  ["From regulator to tool", [
    ["trunk_bore", "Hose to the bench: bore", "bore"],
    ["trunk_length", "its length", "length"],
    ["whip_bore", "Whip in the hand: bore", "bore"],
    ["whip_length", "its length", "length"],
    ["couplers", "Quick couplers", "count"],
    ["droop", "Regulator droop", "droop"],
    ["loss_share", "Loss allowed in the hoses", "share"],
    ["pipe", "Fixed pipe", "text", "copper, aluminum, PVC …; blank is hose alone"],
    ["breathing", "Breathed from this line", "text", "e.g. paint hood; blank is nothing"],
  ]],
];

export const AUXILIARY = [
  ["A second tank, teed in", [
    ["tank", "Volume", "volume", "Blank is none"],
    ["rated", "Pressure stamped on it", "stamp", "e.g. 150 psi, or “no stamp”"],
    ["condition", "How old and sound", "text", "new, used, rusty inside"],
    ["stays", "Stays at the first place", "check"],
  ]],
];

export const LIMITS = [
  ["To carry", [
    ["lift", "One person lifts", "mass"],
    ["tailgate", "Tailgate height", "length"],
  ]],
  ["To pay and to bear", [
    ["budget", "Money for the whole set", "money"],
    ["loudest", "Loudest at your ears", "level"],
    ["hours", "Hours over the build", "hours"],
    ["day", "Hours in a day", "hours"],
    ["tariff", "Price of power", "tariff"],
  ]],
];

/** The fields of the label form in index.html whose bare numbers depend on the unit system. */
export const LABEL = [["label", [["flow", "", "flow"], ["at", "", "pressure"], ["tank", "", "volume"], ["power", "", "power"]]]];
