//! Power: what outlet, wire and cord do with it. Rows without a flow grade the power alone.

use super::row::{ROW, Row};
use bellows::judge::grade::Grade::*;

pub const ROWS: &[Row] = &[
    Row {
        name: "a freezer on the same breaker",
        label: "6 gal 2.6 @ 90, 12 A",
        typed: &[
            ("places.0.other_load", "6 A"),
            ("tasks.0.on", "false"),
            ("tasks.1.on", "false"),
        ],
        grades: &[Trip],
        gist: &[r"18 A", r"15 A", r"trip"],
        next: &[r"^[^.]*(another|other) (breaker|outlet|circuit)|unplug|move"],
        ..ROW
    },
    Row {
        name: "a twenty amp plug at a fifteen amp outlet",
        label: "20 gal 4.2 @ 90, 16 A, 20 A plug",
        typed: &[("places.0.breaker", "15 A"), ("places.0.outlet", "5-15")],
        grades: &[Outlet],
        gist: &[r"20 A"],
        next: &[r"20 A", r"12 AWG|12.gauge"],
        never: &[r"use an adapter|with an adapter"],
        ..ROW
    },
    Row {
        name: "fifty feet of sixteen gauge",
        label: "12 A",
        typed: &[
            ("places.0.cord_gauge", "16 AWG"),
            ("places.0.cord_length", "50 ft"),
        ],
        grades: &[Good, Trip],
        gist: &[r"works|runs"],
        next: &[r"1[24]|kinder"],
        never: &[r"\b10.(gauge|AWG)", r"\b8.(gauge|AWG)"],
        ..ROW
    },
    Row {
        name: "a hundred feet of sixteen gauge",
        label: "12 A",
        typed: &[
            ("places.0.cord_gauge", "16 AWG"),
            ("places.0.cord_length", "100 ft"),
        ],
        grades: &[Outlet, Trip],
        gist: &[r"too light|light", r"cord"],
        next: &[r"at the outlet", r"hose"],
        never: &[r"\b8.(gauge|AWG)", r"\b6.(gauge|AWG)"],
        ..ROW
    },
    Row {
        name: "fifty feet of twelve gauge",
        label: "15 A",
        typed: &[
            ("places.0.cord_gauge", "12 AWG"),
            ("places.0.cord_length", "50 ft"),
        ],
        grades: &[Good, Trip],
        never: &[r"heavier cord", r"\b10.(gauge|AWG)"],
        ..ROW
    },
    Row {
        name: "a hundred feet away, no cord yet",
        label: "15 A",
        typed: &[("places.0.cord_planned", "100 ft")],
        grades: &[Trip, Good],
        next: &[r"at the outlet", r"hose"],
        never: &[r"\b(12|14|16).(gauge|AWG) (is|does|works|will)"],
        ..ROW
    },
    Row {
        name: "eight amps in the hangar",
        label: "8 A",
        typed: &[
            ("places.0.name", "Hangar"),
            ("places.0.breaker", "15 A"),
            ("places.0.cord_gauge", "14 AWG"),
            ("places.0.cord_length", "100 ft"),
        ],
        grades: &[Good],
        gist: &[r"runs|fine"],
        never: &[r"\b10.(gauge|AWG)"],
        ..ROW
    },
    Row {
        name: "thirty amp breaker on twelve gauge wire",
        label: "12 A",
        typed: &[("places.0.breaker", "30 A"), ("places.0.branch_gauge", "12 AWG")],
        grades: &[Danger],
        gist: &[r"30 A breaker", r"12.(gauge|AWG)"],
        next: &[r"electrician"],
        never: &[r"cordless drill"],
        ..ROW
    },
    Row {
        name: "a range circuit and a twelve gauge cord",
        label: "240 V 15 A",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "50 A"),
            ("places.0.outlet", "14-50"),
            ("places.0.cord_gauge", "12 AWG"),
            ("places.0.cord_length", "25 ft"),
        ],
        grades: &[Danger],
        gist: &[r"50 A breaker"],
        next: &[r"20 A", r"electrician"],
        never: &[r"\bfine\b", r"use an adapter|with an adapter"],
        ..ROW
    },
    Row {
        name: "an old dryer outlet without ground",
        label: "240 V 15 A",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.outlet", "10-30"),
            ("places.0.breaker", "30 A"),
        ],
        grades: &[Danger],
        gist: &[r"no ground"],
        next: &[r"ground", r"electrician"],
        never: &[
            r"use it anyway",
            r"use an adapter|with an adapter",
            r"neutral to (the )?frame",
        ],
        ..ROW
    },
    Row {
        name: "two voltages, and a spare 240 volt circuit",
        label: "26 gal 5 @ 90, 120/240 V 15/7.5 A",
        typed: &[
            ("places.0.other_load", "2 A"),
            ("places.0.spare_volts", "240 V"),
            ("places.0.spare_breaker", "20 A"),
        ],
        grades: &[Trip],
        gist: &[r"17 A|shares|full"],
        next: &[r"240 V", r"electrician"],
        never: &[r"buy another", r"the old plug (fits|is fine)"],
        ..ROW
    },
    Row {
        name: "a 208 volt hangar",
        label: "240 V 15 A",
        typed: &[
            ("places.0.name", "Hangar"),
            ("places.0.volts", "208 V"),
            ("places.0.breaker", "20 A"),
        ],
        grades: &[Trip, Ask],
        gist: &[r"208 V", r"low|13 ?%"],
        next: &[r"plate"],
        never: &[r"\bfine\b", r"\bcan't run"],
        ..ROW
    },
    Row {
        name: "a generator of 3.5 kVA",
        label: "12 A",
        typed: &[
            ("places.0.generator", "3.5 kVA"),
            ("places.0.generator_stands", "outdoors, 20 ft from doors"),
        ],
        grades: &[Trip],
        gist: &[r"generator", r"balk|may not start|start"],
        next: &[r"unloader|hard.start|4\.5 kVA"],
        never: &[r"\bcan't\b"],
        ..ROW
    },
    Row {
        name: "a generator of two kVA",
        label: "12 A",
        typed: &[
            ("places.0.generator", "2 kVA"),
            ("places.0.generator_stands", "outdoors, 20 ft from doors"),
        ],
        grades: &[Outlet, Trip],
        gist: &[r"generator", r"stall"],
        next: &[r"4\.5 kVA"],
        never: &[r"\bfine\b"],
        ..ROW
    },
    Row {
        name: "locked rotor amps printed",
        label: "12 A, LRA 60",
        typed: &[
            ("places.0.cord_gauge", "14 AWG"),
            ("places.0.cord_length", "25 ft"),
        ],
        grades: &[Good],
        gist: &[r"starts|runs"],
        never: &[r"six times|guess"],
        ..ROW
    },
    Row {
        name: "a hard start in the cold",
        label: "15 A, 1.5 hp, code K",
        typed: &[
            ("places.0.cord_gauge", "12 AWG"),
            ("places.0.cord_length", "75 ft"),
            ("places.0.temperature", "40 F"),
        ],
        grades: &[Trip, Outlet],
        gist: &[r"start", r"cord"],
        next: &[r"shorter cord|hose|at the outlet"],
        ..ROW
    },
    Row {
        name: "a ground fault interrupter trips at the start",
        label: "13 A",
        typed: &[("places.0.gfci", "trips at start")],
        grades: &[Trip, Ask],
        gist: &[r"GFCI"],
        next: &[r"another outlet|other outlet"],
        never: &[r"(?:you can|just) bypass", r"nuisance"],
        ..ROW
    },
];
