//! Air: is it enough, for what, and what then?

use super::row::{ROW, Row};
use bellows::judge::grade::Grade::*;

const CORDLESS_OR_MORE: &[&str] = &[r"cordless|4 cfm"];

pub const ROWS: &[Row] = &[
    Row {
        name: "six gallon pancake",
        label: "6 gal pancake 2.6 CFM @ 90, 120 V 12 A, 150 psi",
        grades: &[Small],
        gist: &[r"too small for drilling", r"fine for riveting"],
        next: CORDLESS_OR_MORE,
        never: &[r"hangar", r"\bcord\b", r"breaker"],
        ..ROW
    },
    Row {
        name: "quiet seven gallon",
        label: "7 gal 2.1 cfm @ 90, 9 A, 62 dBA, 44 lb",
        grades: &[Small],
        gist: &[r"too small for (steady )?drilling", r"fine for riveting"],
        next: CORDLESS_OR_MORE,
        never: &[r"it is loud|is loud|too loud", r"may trip", r"electrician"],
        ..ROW
    },
    Row {
        name: "twenty gallon, four cfm",
        label: "20 gal 4.0 @ 90, 14 A 120 V",
        grades: &[Good, Wait],
        gist: &[r"does the job|wait|keeps up|fine"],
        next: &[r"nothing else on (that|its|the) (breaker|circuit)|breaker to itself|nothing else on it"],
        never: &[r"too small", r"needs (a )?20 A"],
        ..ROW
    },
    Row {
        name: "thirty gallon, five cfm, fifteen amp plug",
        label: "30 gal 5.0 @ 90, 15 A 120 V, 15 A plug",
        grades: &[Good, Trip],
        gist: &[r"plenty|enough|keeps up|does the job"],
        next: &[r"breaker to itself|nothing else on|circuit of its own"],
        never: &[
            r"can't run",
            r"not lawful|unlawful",
            r"bigger breaker",
            r"new receptacle",
        ],
        ..ROW
    },
    Row {
        name: "sixty gallon at a 120 volt garage",
        label: "60 gal 11.5 @ 90, 240 V 15 A, 300 lb",
        typed: &[("places.0.volts", "120 V")],
        grades: &[Outlet],
        gist: &[
            r"outlet can't run it|can't run",
            r"air (would be|is) (far )?more than (you need|enough)|more air than you need|plenty of air|air would be enough",
        ],
        next: &[r"20 A.*240 V|240 V.*20 A", r"electrician"],
        never: &[r"\d A at 120 V", r"\d+ V at the motor"],
        ..ROW
    },
    Row {
        name: "sixty gallon with a small pump",
        label: "60 gal 2.0 @ 90, 8 A",
        grades: &[Small, Wait],
        gist: &[r"long bursts|burst", r"min|recover|refill"],
        next: &[r"more cfm|\d(\.\d)? cfm or more"],
        never: &[r"because the tank is big"],
        ..ROW
    },
    Row {
        name: "ten gallon, thirteen cfm",
        label: "10 gal 13 @ 90, 240 V 22 A, 250 lb",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "30 A"),
            ("places.0.branch_gauge", "10 AWG"),
        ],
        grades: &[Good, Trip],
        gist: &[
            r"air all day|hold the trigger|plenty|far more than you need",
            r"starts? (far )?too often|too often",
        ],
        next: &[r"second tank|constant run|unloader"],
        ..ROW
    },
    Row {
        name: "ten gallon, three cfm",
        label: "10 gal 3.2 @ 90, 12 A",
        grades: &[Small],
        gist: &[r"too small for (steady )?drilling"],
        next: &[r"cordless|second tank|4 cfm"],
        never: &[r"fine with patience|patience"],
        ..ROW
    },
    Row {
        name: "five cfm at eight thousand feet",
        label: "26 gal 5.0 @ 90, 15 A",
        typed: &[("places.0.altitude", "8,000 ft")],
        grades: &[Wait, Good, Trip],
        gist: &[r"altitude|up here|up there|thin|8,?000 ft"],
        next: &[r"6 cfm or more|breaker to itself|nothing else on"],
        never: &[r"too small", r"delivers 5(\.0)? cfm (there|here)"],
        ..ROW
    },
    Row {
        name: "one drills while one rivets",
        label: "20 gal 4.0 @ 90, 14 A",
        typed: &[("tasks.0.together", "true"), ("tasks.2.together", "true")],
        grades: &[Wait, Small],
        gist: &[r"wait|too small", r"both|rivet"],
        next: &[r"5 cfm|\d(\.\d)? cfm or more|cordless"],
        never: &[r"two guns", r"bucker's air"],
        ..ROW
    },
    Row {
        name: "pulled rivets, holes punched to size",
        label: "20 gal 3.0 @ 90, 11 A",
        typed: &[
            ("tasks.0.on", "false"),
            ("tasks.1.on", "false"),
            ("tasks.2.on", "false"),
            ("tasks.3.on", "false"),
            ("tasks.4.on", "false"),
            ("tasks.10.on", "true"),
            ("tasks.11.on", "true"),
        ],
        grades: &[Good],
        gist: &[r"enough|does the job|keeps up|fine|plenty"],
        never: &[r"too small"],
        ..ROW
    },
    Row {
        name: "horsepower alone",
        label: "5 HP peak, 20 gal, 120 V 15 A",
        grades: &[Ask],
        gist: &[r"cfm at 90"],
        next: &[r"cfm"],
        never: &[r"5 hp (motor|of power)", r"makes \d", r"delivers \d"],
        ..ROW
    },
    Row {
        name: "flow at forty psi",
        label: "20 gal, 5.5 CFM @ 40 psi, 13 A",
        grades: &[Ask, Wait, Good],
        gist: &[r"40 psi", r"likely"],
        next: &[r"cfm at 90"],
        never: &[r"5\.5 cfm at 90"],
        ..ROW
    },
    Row {
        name: "nine cfm from twelve amps",
        label: "6 gal 9.0 CFM @ 90, 120 V 12 A",
        grades: &[Ask],
        gist: &[r"(hardly|isn't|not) possible|can't be|impossible", r"12 A"],
        next: &[r"plate|manual|nameplate"],
        never: &[r"\bit keeps up|does the job"],
        ..ROW
    },
    Row {
        name: "displacement beside delivery",
        label: "26 gal, displacement 8.1, delivers 5.6 @ 90, 15 A",
        grades: &[Good, Trip],
        gist: &[r"enough|plenty|does the job|keeps up"],
        next: &[r"breaker to itself|nothing else on|circuit of its own"],
        never: &[r"8\.1"],
        ..ROW
    },
    Row {
        name: "twin tanks",
        label: "2 x 2 gal twin 4.6 @ 90, 14 A",
        grades: &[Wait, Small],
        gist: &[r"burst|wait|too small"],
        next: &[r"second tank|20 gal|cordless"],
        never: &[r"\b2 gal\b"],
        ..ROW
    },
    Row {
        name: "timed slower than printed",
        label: "20 gal 4.0 @ 90, 14 A, pump-up 0 to 120 timed 6 min 30 s",
        grades: &[Wait, Small],
        gist: &[
            r"timed|clock|measured",
            r"less than (printed|the label)|not the 4|short of",
        ],
        next: &[r"filter|leak|reed|valve|belt"],
        never: &[r"makes 4(\.0)? cfm", r"delivers 4(\.0)? cfm"],
        ..ROW
    },
    Row {
        name: "suction flow of a European label",
        label: "24 l, 180 l/min suction, 8 bar, 1.1 kW 230 V",
        typed: &[("units", "metric"), ("places.0.breaker", "16 A")],
        grades: &[Small, Ask],
        gist: &[r"suction|intake"],
        next: &[r"delivered|delivery|FAD"],
        never: &[r"180 L/min delivered|delivers 180", r"\bNEC\b"],
        ..ROW
    },
    Row {
        name: "fifty litres on a fused plug",
        label: "50 l, 250 l/min FAD @ 7 bar, 2.2 kW 230 V 9.6 A",
        typed: &[("units", "metric"), ("places.0.outlet", "BS 1363")],
        grades: &[Good, Trip],
        gist: &[r"plenty|enough|keeps up|does the job|more than you need"],
        next: &[r"socket|reel|outlet of its own|nothing else"],
        never: &[r"AWG", r"\bNEC\b", r"\d in\b hose"],
        ..ROW
    },
    Row {
        name: "no figures",
        label: "5 gal and $129",
        grades: &[Ask],
        gist: &[r"cfm at 90"],
        next: &[r"look for|find|box|manual"],
        never: &[r"\bfine for", r"too small"],
        ..ROW
    },
];
