//! Safety, line, paint, water, sound.

use super::row::{ROW, Row};
use bellows::judge::grade::Grade::*;

pub const ROWS: &[Row] = &[
    Row {
        name: "a switch above the tank's stamp",
        label: "20 gal 5 @ 90, cut-out 175, tank stamped 125",
        grades: &[Danger],
        gist: &[r"stamp", r"175", r"unplug", r"bleed", r"do not run|don't run"],
        next: &[r"115", r"relief valve", r"125"],
        never: &[r"benefit", r"longer bursts at 175"],
        ..ROW
    },
    Row {
        name: "a second tank below the switch",
        label: "20 gal 4 @ 90, cut-out 135",
        typed: &[("auxiliary.tank", "20 gal"), ("auxiliary.rated", "100 psi")],
        grades: &[Danger],
        gist: &[r"135 psi", r"100 psi|not for"],
        next: &[r"150"],
        never: &[r"40 gal"],
        ..ROW
    },
    Row {
        name: "a hundred feet of quarter inch hose",
        label: "30 gal 5 @ 90",
        typed: &[("line.trunk_bore", "1/4 in"), ("line.trunk_length", "100 ft")],
        grades: &[Wait, Small],
        gist: &[r"hose is the limit|hose"],
        next: &[r"3/8 in"],
        never: &[r"bigger tank|larger tank", r"111 psi"],
        ..ROW
    },
    Row {
        name: "a die grinder as well",
        label: "30 gal 5 @ 90",
        typed: &[("tasks.6.on", "true")],
        grades: &[Wait, Small],
        gist: &[r"die grinder", r"fine for|rest|airframe|drilling"],
        next: &[r"electric|cordless"],
        never: &[r"set (the regulator|it) to (9[1-9]|1\d\d) psi"],
        ..ROW
    },
    Row {
        name: "priming parts with a small gun",
        label: "20 gal 4 @ 90",
        typed: &[("tasks.8.on", "true")],
        grades: &[Good, Wait],
        gist: &[r"prim"],
        next: &[r"trap|filter|bench|spray"],
        never: &[r"a filter is enough"],
        ..ROW
    },
    Row {
        name: "a color coat",
        label: "60 gal 11.5 @ 90, 240 V",
        typed: &[
            ("tasks.9.on", "true"),
            ("tasks.9.flow", "14 cfm"),
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "20 A"),
        ],
        grades: &[Good, Wait],
        gist: &[r"paint|color|coat"],
        next: &[r"trap|coalescing|desiccant"],
        never: &[r"fad(es|ing)", r"a filter is enough"],
        ..ROW
    },
    Row {
        name: "a stationary machine and a hangar",
        label: "60 gal 12 @ 90 240 V 15 A 300 lb",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "20 A"),
            ("places.1.name", "Hangar"),
            ("places.1.volts", "120 V"),
        ],
        grades: &[Good],
        gist: &[r"home|garage", r"stays"],
        next: &[r"hangar", r"small|its own"],
        never: &[r"not everywhere"],
        ..ROW
    },
    Row {
        name: "a hangar floor beside a fueled airplane",
        label: "20 gal 5 @ 90",
        typed: &[
            ("places.0.name", "Hangar"),
            ("places.0.airplane", "fueled"),
            ("places.0.compressor_stands", "on the floor"),
        ],
        grades: &[Danger, Ask],
        gist: &[r"floor"],
        next: &[r"outside|18 in", r"hose through the wall|5 ft|airport"],
        never: &[r"leave it on the floor"],
        ..ROW
    },
    Row {
        name: "a closed box",
        label: "30 gal 5 @ 90 15 A",
        typed: &[
            ("places.0.boxed", "true"),
            ("places.0.box_size", "4 x 3 x 3 ft"),
            ("places.0.temperature", "70 F"),
        ],
        grades: &[Trip, Wait],
        gist: &[r"overheat|hot"],
        next: &[r"two openings", r"fan"],
        never: &[r"insulate", r"a small vent will do"],
        ..ROW
    },
    Row {
        name: "a used second tank without a stamp",
        label: "20 gal 4 @ 90",
        typed: &[("auxiliary.tank", "20 gal"), ("auxiliary.rated", "no stamp")],
        grades: &[Danger],
        gist: &[r"no stamp, no air|no stamp"],
        next: &[r"stamp"],
        never: &[r"40 gal"],
        ..ROW
    },
    Row {
        name: "a blow-off nozzle",
        label: "20 gal 5 @ 90, 12 A",
        grades: &[Good, Wait],
        never: &[r"35 psi"],
        ..ROW
    },
    Row {
        name: "hot and damp",
        label: "20 gal 5 @ 90",
        typed: &[("places.0.temperature", "90 F"), ("places.0.humidity", "80 %")],
        grades: &[Good],
        next: &[r"drain|trap|breaker to itself"],
        never: &[r"trap at the tank\b"],
        ..ROW
    },
    Row {
        name: "neighbors and no decibels printed",
        label: "6 gal oil-free 2.6 @ 90",
        typed: &[("places.0.neighbour", "30 ft"), ("places.0.listener", "3 ft")],
        grades: &[Small],
        gist: &[r"too small for drilling"],
        never: &[r"printed \d\d dBA"],
        ..ROW
    },
    Row {
        name: "belt drive in a cold hangar",
        label: "20 gal oiled belt drive 5 @ 90",
        typed: &[("places.0.name", "Hangar"), ("places.0.temperature", "15 F")],
        grades: &[Trip],
        gist: &[r"cold|15 °F|start"],
        next: &[r"thin|synthetic|unloader|drain"],
        never: &[r"starts fine|is fine in the cold"],
        ..ROW
    },
];
