//! Single steps, and the figures and words of a shop that each changes.

use physics::circuit::{CordSize, Metal};
use quantity::gauge::area_m2;
use quantity::{Kind, Known, write};
use shop::change::Change;

use crate::basis::wiring::{Outlet, Stands, face_named};
use crate::basis::{Basis, CandidateBasis, Connection, PlaceBasis};

/// 3/8 in, m: the hose for such a run; 10 mm where bores are metric.
const HOSE_BORE_M: f64 = 0.009_525;

/// One thing to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// Put the generator outdoors, 20 ft from doors and windows.
    GeneratorOutdoors,
    /// Leave the adapter off: a grounded outlet that fits.
    GroundedOutlet,
    /// A regular outlet of 120 V, with nothing else on it.
    RegularOutlet,
    /// A breaker that the wire and the outlet allow, A.
    SmallerBreaker(f64),
    /// Other loads to another circuit, A.
    MoveOthers {
        /// A.
        amps: f64,
        /// What they are; may be blank.
        what: String,
    },
    /// The compressor at the outlet, and so much more hose, m.
    AtOutlet {
        /// Hose in place of the cord, m.
        hose_m: f64,
    },
    /// A shorter cord, the rest in hose.
    ShorterCord {
        /// The cord.
        size: CordSize,
        /// Its length, m.
        length_m: f64,
        /// Hose in place of the rest, m.
        hose_m: f64,
    },
    /// A heavier cord of the same length.
    HeavierCord {
        /// The cord.
        size: CordSize,
        /// Its length, m.
        length_m: f64,
    },
    /// The motor reconnected for other volts, on a circuit of them.
    Reconnect {
        /// The connection.
        volts: f64,
        /// Its current, A.
        amps: f64,
        /// The circuit for it; `None` where the place has it already.
        circuit: Option<Circuit>,
    },
    /// A circuit of its own.
    OwnCircuit(Circuit),
    /// A generator of this size, kVA.
    Generator(f64),
}

/// A circuit that an electrician puts in, or has spare.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circuit {
    /// Volts.
    pub volts: f64,
    /// Breaker, A.
    pub breaker_a: f64,
    /// Wire, m².
    pub wire_m2: f64,
    /// Face of its outlet.
    pub outlet: &'static str,
    /// It is there already, spare.
    pub spare: bool,
    /// The motor's current is a guess: its plate sizes the circuit, not these figures.
    pub by_plate: bool,
}

/// The outlet that every garage has: 15 A behind 14-gauge wire.
fn regular() -> Circuit {
    Circuit {
        volts: 120.0,
        breaker_a: 15.0,
        wire_m2: area_m2(14),
        outlet: "5-15",
        by_plate: false,
        spare: true,
    }
}

/// One change of a figure or a word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Edit {
    /// Other loads, A.
    OtherLoad(f64),
    /// No cord, none planned.
    NoCord,
    /// This cord: area m², length m.
    Cord(f64, f64),
    /// Main hose longer by so much, m.
    Hose(f64),
    /// Volts of the place.
    Volts(f64),
    /// Breaker, A.
    Breaker(f64),
    /// Copper wire of this area, m².
    Wire(f64),
    /// Face of the outlet.
    Outlet(&'static str),
    /// No adapter.
    NoAdapter,
    /// Generator, kVA.
    Generator(f64),
    /// The generator outdoors.
    GeneratorOutdoors,
    /// The motor connected for these volts, drawing these amps.
    Connected(f64, f64),
}

impl Step {
    /// What it changes.
    pub fn edits(&self) -> Vec<Edit> {
        match self {
            Self::GeneratorOutdoors => vec![Edit::GeneratorOutdoors],
            Self::GroundedOutlet => vec![Edit::NoAdapter],
            Self::RegularOutlet => regular().edits(),
            Self::SmallerBreaker(amps) => vec![Edit::Breaker(*amps)],
            Self::MoveOthers { .. } => vec![Edit::OtherLoad(0.0)],
            Self::AtOutlet { hose_m } => vec![Edit::NoCord, Edit::Hose(*hose_m)],
            Self::ShorterCord {
                size,
                length_m,
                hose_m,
            } => vec![Edit::Cord(size.area_m2, *length_m), Edit::Hose(*hose_m)],
            Self::HeavierCord { size, length_m } => vec![Edit::Cord(size.area_m2, *length_m)],
            Self::Reconnect { volts, amps, circuit } => {
                let mut edits = vec![Edit::Connected(*volts, *amps)];
                edits.extend(circuit.iter().flat_map(Circuit::edits));
                edits
            }
            Self::OwnCircuit(circuit) => circuit.edits(),
            Self::Generator(kva) => vec![Edit::Generator(*kva)],
        }
    }

    /// Steps of one kind do not go together.
    pub(super) fn same_kind(&self, other: &Self) -> bool {
        let cord = |step: &Self| {
            matches!(
                step,
                Self::AtOutlet { .. } | Self::ShorterCord { .. } | Self::HeavierCord { .. }
            )
        };
        let circuit = |step: &Self| {
            matches!(
                step,
                Self::OwnCircuit(_)
                    | Self::RegularOutlet
                    | Self::Reconnect { .. }
                    | Self::SmallerBreaker(_)
                    | Self::MoveOthers { .. }
            )
        };
        cord(self) && cord(other)
            || circuit(self) && circuit(other)
            || std::mem::discriminant(self) == std::mem::discriminant(other)
    }
}

impl Circuit {
    fn edits(&self) -> Vec<Edit> {
        vec![
            Edit::Volts(self.volts),
            Edit::Breaker(self.breaker_a),
            Edit::Wire(self.wire_m2),
            Edit::Outlet(self.outlet),
            Edit::OtherLoad(0.0),
            Edit::NoAdapter,
        ]
    }
}

impl Edit {
    /// Does it to a place and a machine, in quantities.
    pub(super) fn apply(self, place: &mut PlaceBasis, candidate: &mut CandidateBasis) {
        let typed = Known::typed;
        match self {
            Self::OtherLoad(amps) => {
                place.other_a = amps;
                place.other_name.clear();
            }
            Self::NoCord => {
                place.cord = None;
                place.wiring.cord_planned_m = None;
            }
            Self::Cord(area_m2, length_m) => {
                place.cord = Some((area_m2, length_m));
                place.wiring.cord_gauge_given = true;
                place.wiring.cord_length_given = true;
            }
            Self::Hose(_) => {}
            Self::Volts(volts) => place.volts = typed(volts),
            Self::Breaker(amps) => place.breaker_a = typed(amps),
            Self::Wire(area_m2) => {
                place.branch.0 = typed(area_m2);
                place.wiring.metal = Metal::Copper;
            }
            Self::Outlet(name) => place.wiring.outlet = face_named(name).map(Outlet::Face),
            Self::NoAdapter => place.wiring.adapter = None,
            Self::Generator(kva) => place.generator_va = Some(1_000.0 * kva),
            Self::GeneratorOutdoors => place.wiring.generator_stands = Some(Stands::Outdoors),
            Self::Connected(volts, amps) => {
                candidate.volts = typed(volts);
                candidate.amps = Some(amps);
                candidate.connections = vec![Connection {
                    volts: [volts; 2],
                    amps: Some(amps),
                }];
            }
        }
    }

    /// The same as texts for the shop's fields.
    pub(super) fn changes(self, basis: &Basis, candidate: usize, place: usize) -> Vec<Change> {
        let own = |field: &str, text: String| Change {
            field: format!("places.{place}.{field}"),
            text,
        };
        let machine = |field: &str, text: String| Change {
            field: format!("candidates.{candidate}.{field}"),
            text,
        };
        let of = |kind: Kind, value: f64| write(kind, value, basis.units);
        match self {
            Self::OtherLoad(amps) => vec![
                own("other_load", of(Kind::Current, amps)),
                own("other_name", String::new()),
            ],
            Self::NoCord => ["cord_gauge", "cord_length", "cord_planned"]
                .map(|field| own(field, String::new()))
                .into(),
            Self::Cord(area_m2, length_m) => vec![
                own("cord_gauge", of(Kind::WireArea, area_m2)),
                own("cord_length", of(Kind::Length, length_m)),
            ],
            Self::Hose(longer_m) => hose(basis, longer_m),
            Self::Volts(volts) => vec![own("volts", of(Kind::Voltage, volts))],
            Self::Breaker(amps) => vec![own("breaker", of(Kind::Current, amps))],
            Self::Wire(area_m2) => vec![
                own("branch_gauge", of(Kind::WireArea, area_m2)),
                own("wire_metal", String::new()),
            ],
            Self::Outlet(name) => vec![own("outlet", name.into())],
            Self::NoAdapter => vec![own("adapter", String::new())],
            Self::Generator(kva) => vec![own("generator", of(Kind::ApparentPower, 1_000.0 * kva))],
            Self::GeneratorOutdoors => vec![own("generator_stands", "outdoors, 20 ft from doors".into())],
            Self::Connected(volts, amps) => vec![
                machine("volts", of(Kind::Voltage, volts)),
                machine("amps", of(Kind::Current, amps)),
            ],
        }
    }
}

/// The main hose longer by so much, and no thinner than 3/8 in.
fn hose(basis: &Basis, longer_m: f64) -> Vec<Change> {
    let (bore_m, length_m) = basis.line.trunk;
    let line = |field: &str, kind: Kind, value: f64| Change {
        field: format!("line.{field}"),
        text: write(kind, value, basis.units),
    };
    let mut changes = vec![line("trunk_length", Kind::Length, length_m + longer_m)];
    if bore_m < 0.98 * HOSE_BORE_M {
        changes.push(line("trunk_bore", Kind::Bore, HOSE_BORE_M));
    }
    changes
}

impl Step {
    /// The same act, perhaps of another size.
    pub(super) fn same_kind_as(&self, other: &Self) -> bool {
        std::mem::discriminant(self) == std::mem::discriminant(other)
    }
}
