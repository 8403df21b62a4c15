// Which fields stand together and what each is called where it stands; names, units and limits are the core's. One row a field:
// [its key, label, hint, choices].

/** @typedef {[value: string, text: string]} Choice */
/** @typedef {[key: string, label: string, hint?: string, choices?: Choice[] | null]} Field */
/** @typedef {[legend: string, fields: Field[]]} Group */

/** Figures that need letters, fractions or signs, which a phone's number pad lacks. */
export const LETTERS = new Set(["branch_gauge", "cord_gauge", "trunk_bore", "whip_bore", "power", "peak_power", "start", "pump_up", "leak_time", "stamp", "relief", "rated", "amps", "volts", "tank"]);

/** Fields that take the page's clock. */
export const TIMES = new Set(["pump_up", "leak_time"]);

/** @type {Choice[]} */
const MACHINES = [
  ["piston_one_stage", "piston, one stage"],
  ["piston_two_stage", "piston, two stages"],
  ["rotary", "screw, scroll or vane"],
];

/** The rest of a compressor's plate. @type {Group[]} */
export const PLATE = [
  ["More from the label", [
    ["at", "That flow is at", "Blank is 90 psi (6.2 bar)"],
    ["power", "Printed horsepower or watts"],
    ["peak_power", "Peak horsepower"],
    ["suction", "Suction or displacement", "More than it delivers"],
    ["plug", "Plug on its cord", "15 A, 20 A, 6-20, Schuko"],
    ["name", "Name of it", "Make and model, or any name"],
    ["kind", "Pump type", "", MACHINES],
    ["flow2", "Second flow", "Many labels state two"],
    ["at2", "at pressure"],
    ["cut_in", "Cut-in", "Where the switch starts the motor"],
        ["duty", "Duty", "Share of time that it may run"],
    ["start", "Starting current", "Code letter, amps (60 A) or multiple (6x)"],
    ["pump", "Kind of pump", "oil-free, oiled, belt drive, two-stage"],
    ["stamp", "Tank stamped for", "e.g. 150 psi, or “no stamp”"],
    ["relief", "Relief valve opens at", "e.g. 150 psi, or “blocked”"],
  ]],
  ["Sound, weight, money", [
    ["sound", "Sound"],
    ["sound_at", "taken at"],
    ["sound_power", "or sound power", "Labels in Europe: LWA"],
    ["weight", "Weight"],
    ["wheels", "It rolls on wheels"],
  ]],
  ["Measured", [
    ["pump_from", "Pump-up from", "0 is a drained tank: the surest"],
    ["pump_to", "to", "Blank is from cut-in to cut-out"],
    ["pump_up", "Pump-up time", "Outlet and second tank shut off, tank cool. Several runs: “182 s; 179 s”, apart by “;” or “ / ”"],
    ["leak_from", "Leak-down from", "Blank is cut-out"],
    ["leak_to", "to", "20 psi (1.4 bar) or above"],
    ["leak_time", "Leak-down time", "Motor off, nothing drawn, tank cooled down first"],
  ]],
];

/** @type {Group[]} */
export const PLACE = [
  ["Air", [
    ["name", "Name of the place"],
    ["altitude", "Altitude"],
    ["temperature", "Air temperature"],
    ["humidity", "Humidity"],
    ["station_pressure", "Barometer", "As read there, not reduced to sea level; goes before the altitude"],
  ]],
  ["Circuit", [
    ["volts", "Volts at the panel"],
    ["breaker", "Breaker"],
    ["other_load", "Other loads on it"],
    ["other_name", "What they are", "e.g. freezer"],
    ["outlet", "Outlet", "5-15, 5-20, 6-20, 14-50, 10-30, hard-wired, Schuko, BS 1363"],
    ["adapter", "Adapter", "Blank is none; e.g. two-prong"],
    ["gfci", "GFCI", "yes, no, or “trips at start”"],
    ["generator", "Generator", "Blank is the grid"],
    ["generator_stands", "Generator stands", "e.g. outdoors, 20 ft from doors"],
    ["branch_gauge", "Wire in the wall"],
    ["branch_length", "its length", "Panel to outlet, one way"],
    ["wire_metal", "its metal", "copper or aluminum"],
    ["spare_volts", "Spare circuit", "One that could be had here"],
    ["spare_breaker", "its breaker"],
    ["machine_comes", "Compressor comes here", "yes or no; a stationary one stays at the first place"],
  ]],
  ["Cord", [
    ["cord_gauge", "Cord", "Blank is no cord"],
    ["cord_length", "its length"],
    ["cord_planned", "No cord yet: how far", "Outlet to compressor"],
  ]],
  ["Who is near", [
    ["listener", "Your ears", "From the compressor"],
    ["neighbour", "Nearest neighbor"],
    ["wall_loss", "Walls take away", "On the way to the neighbour"],
    ["inlet_ducted", "Inlet ducted outdoors"],
    ["boxed", "Stands in a sound box"],
    ["box_size", "its size", "e.g. 4 x 3 x 3 ft"],
    ["box_fan", "Fan in that box"],
  ]],
  ["Around it", [
    ["airplane", "Airplane in the building", "fueled, never fueled, or none"],
    ["compressor_stands", "Where the compressor stands", "e.g. outside; 18 in up, 5 ft from the airplane"],
  ]],
];

/** @type {Group[]} */
export const TASK = [
  ["The tool", [
    ["kind", "What it is", "", null],
    ["name", "Your name for it"],
    ["flow", "Air on the trigger"],
    ["setting", "Pressure at the tool", "Running"],
    ["lowest", "Lowest useful"],
    ["people", "Guns running at once", "The bucker takes no air"],
    ["together", "Goes on beside other work", "One drills while one rivets"],
  ]],
  ["If it sprays", [
    ["gun", "Spray gun", "touch-up, LVLP, HVLP or conventional"],
    ["paint", "What it sprays", "e.g. two-part urethane, chromate primer"],
    ["sprayed", "Where it is sprayed", "e.g. booth, outdoors, beside the compressor"],
  ]],
  ["Its rhythm", [
    ["trigger_on", "On the trigger"],
    ["trigger_off", "off it"],
    ["spell", "Work session", "How long that rhythm lasts"],
    ["pause", "Pause after it", "Clamping, fetching, reading plans"],
  ]],
];

/** @type {Group[]} */
export const LINE = [
  ["From regulator to tool", [
    ["trunk_bore", "Main hose: bore"],
    ["trunk_length", "its length"],
    ["whip_bore", "Whip hose: bore"],
    ["whip_length", "its length"],
    ["couplers", "Quick couplers"],
    ["droop", "Pressure drop at the regulator"],
    ["loss_share", "Loss allowed in the hoses"],
    ["pipe", "Fixed pipe", "copper, aluminum, PVC …; blank is hose alone"],
    ["breathing", "Breathed from this line", "e.g. paint hood; blank is nothing"],
  ]],
];

/** @type {Group[]} */
export const AUXILIARY = [
  ["A second tank, plumbed in", [
    ["tank", "Volume", "Blank is none"],
    ["rated", "Pressure stamped on it", "e.g. 150 psi, or “no stamp”"],
    ["condition", "How old and sound", "new, used, rusty inside"],
    ["stays", "Stays at the first place"],
  ]],
];

/** @type {Group[]} */
export const LIMITS = [
  ["To carry", [
    ["lift", "One person lifts"],
    ["tailgate", "Tailgate height"],
  ]],
  ["To pay and to bear", [
    ["budget", "Money for the whole set"],
    ["loudest", "Loudest at your ears"],
    ["hours", "Hours over the build"],
    ["day", "Hours in a day"],
    ["tariff", "Price of power"],
  ]],
];

