//! What is found about a circuit: each with the figures that its sentence needs.

use physics::circuit::{CordSize, Metal, warming_amps};

use crate::basis::wiring::Stands;
use crate::grade::Grade;

/// One thing found, and how grave it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// How grave.
    pub grade: Grade,
    /// What.
    pub cause: Cause,
}

/// The load on a breaker.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnBreaker {
    /// The machine, A.
    pub amps: f64,
    /// Other loads, A.
    pub other_a: f64,
    /// Rating, A.
    pub rating_a: f64,
    /// Share of time that the machine runs, where the work tells it.
    pub share_on: Option<f64>,
}

impl OnBreaker {
    /// Whether it is warmed no more than by its rating, as the machine runs only part of the time.
    pub fn rests(&self) -> bool {
        let warm = |share| warming_amps(self.amps, self.other_a, share);
        // What is beyond the sums does not rest.
        let rests = |share| warm(share).is_ok_and(|amps| amps <= self.rating_a);
        self.share_on.is_some_and(rests)
    }
    /// All of it, A.
    pub fn total_a(&self) -> f64 {
        self.amps + self.other_a
    }
}

/// A cord against the machine that hangs on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnCord {
    /// The machine, A.
    pub amps: f64,
    /// The cord: area of a conductor, m², and what it carries.
    pub cord: CordSize,
    /// Its length, m.
    pub length_m: f64,
    /// Share of the volts that it loses.
    pub drop_share: f64,
    /// The cord on the rack that does for this length.
    pub wants: Option<CordSize>,
    /// A run for the hose rather than a cord.
    pub rather_hose: bool,
}

/// What is found. In each group the graver first.
#[derive(Clone, Debug, PartialEq)]
pub enum Cause {
    /// A generator within walls or by an opening: carbon monoxide.
    CarbonMonoxide {
        /// Where it stands.
        stands: Stands,
    },
    /// Nothing grounds the machine's frame.
    NoGround {
        /// The outlet's face; `None` is an adapter that leaves the ground off.
        outlet: Option<&'static str>,
    },
    /// An adapter to an outlet that the plug was not made for.
    WrongAdapter,
    /// The breaker is larger than its wire.
    BreakerOverWire {
        /// Rating, A.
        breaker_a: f64,
        /// Wire, m².
        area_m2: f64,
        /// Metal of it.
        metal: Metal,
        /// Largest breaker that this wire may have, A; 0 if it may not be in a wall at all.
        most_a: f64,
    },
    /// The breaker is larger than its outlet.
    BreakerOverOutlet {
        /// Rating, A.
        breaker_a: f64,
        /// The outlet's face.
        outlet: &'static str,
        /// Its rating, A.
        outlet_a: f64,
    },
    /// A small plug and cord behind a breaker made for a range, a dryer or a welder.
    LargeBreaker {
        /// Rating, A.
        breaker_a: f64,
        /// The machine, A.
        amps: f64,
        /// Its own breaker, A.
        wants_a: f64,
    },
    /// The cord is made for less than the machine draws.
    CordOverloaded(OnCord),

    /// It needs other volts than the place has.
    OtherVolts {
        /// The machine's.
        needs: f64,
        /// The place's.
        has: f64,
        /// The breaker that it needs there, A; unknown without its current.
        wants_a: Option<f64>,
    },
    /// It runs on 120 V, and the outlet that was told gives 240 V: a house has a regular one, too (NEC 210.52(G)(1) asks for one in
    /// each garage with power).
    RegularOutlet {
        /// The machine's volts.
        needs: f64,
    },
    /// The outlet's face is one for dryers and welders, for which no machine comes with a plug.
    PlugToFit {
        /// The face.
        outlet: &'static str,
    },
    /// Its motor wants three phases.
    ThreePhase,
    /// It draws more than the outlet is made for: its plug does not fit, or should not.
    LargerOutlet {
        /// The machine, A.
        amps: f64,
        /// The outlet, A.
        outlet_a: f64,
        /// The breaker and outlet that it needs, A.
        wants_a: f64,
    },
    /// All of it trips the breaker.
    Trips(OnBreaker),
    /// The cord loses too much for its length.
    CordTooLong(OnCord),
    /// Wire and cord leave too few volts for the running motor.
    LowVolts {
        /// Volts at the motor; `None` if it cannot run at all.
        volts: Option<f64>,
        /// Share that is lost on the way.
        lost_share: f64,
        /// A cord is part of it.
        by_cord: bool,
    },
    /// By its printed starting current it does not start.
    Stalls {
        /// Volts at the motor as it starts.
        volts: f64,
        /// Over the plate's.
        plate_share: f64,
    },
    /// The generator stalls.
    GeneratorStalls {
        /// Rating, kVA.
        rated_kva: f64,
        /// Running load, kVA.
        running_kva: f64,
        /// Rating from which it starts easily, kVA, a size sold.
        wants_kva: f64,
    },

    /// A field could not be read, so this circuit is not judged.
    NotRead {
        /// Its path.
        field: String,
    },
    /// A figure is beyond what the sums take.
    BeyondSums {
        /// What the sums say of it.
        why: String,
    },
    /// Nothing tells what it draws.
    CurrentUnknown {
        /// Only horsepower is printed.
        horsepower: bool,
    },
    /// The current that its flow asks for is more than the outlet gives: asked about.
    CurrentGuessed {
        /// What the best such machine draws, A.
        low: f64,
        /// What such machines draw, A.
        likely: f64,
        /// What the outlet gives, A.
        rating_a: f64,
    },
    /// A breaker that no usual outlet belongs to.
    OddBreaker {
        /// Rating, A.
        breaker_a: f64,
        /// The largest for a usual outlet of these volts, A.
        usual_a: f64,
    },
    /// More than a tenth off the plate's volts.
    VoltsOff {
        /// The place's.
        has: f64,
        /// The plate's.
        plate: f64,
    },
    /// It can be wired for these volts; is it?
    WiredFor {
        /// The place's system.
        volts: f64,
        /// What such machines are shipped for.
        shipped: f64,
    },
    /// Which outlet or breaker is there? What was taken for it does not do.
    WhichOutlet {
        /// The machine, A.
        amps: f64,
        /// What was taken, A.
        taken_a: f64,
        /// What it needs, A.
        wants_a: f64,
    },
    /// Which cord is it? What was taken for it does not do.
    WhichCord(OnCord),
    /// The interrupter trips at the start.
    InterrupterTrips,

    /// More than the breaker holds for good.
    MayTrip {
        /// What is on it.
        load: OnBreaker,
        /// To be expected, not only possible.
        expect: bool,
    },
    /// The cord is light for its length.
    CordLight(OnCord),
    /// No cord bought yet, for a run that belongs in hose.
    HoseNotCord {
        /// Length of the run, m.
        length_m: f64,
        /// The cord, if it must be one.
        wants: Option<CordSize>,
    },
    /// Low volts as it starts.
    HardStart {
        /// Volts at the motor.
        volts: f64,
        /// Over the plate's.
        plate_share: f64,
        /// By a taken starting current, not a printed one.
        guessed: bool,
    },
    /// A generator that may balk at starting it.
    GeneratorThin {
        /// Rating, kVA.
        rated_kva: f64,
        /// Running load, kVA.
        running_kva: f64,
        /// Rating from which it starts easily, kVA, a size sold.
        wants_kva: f64,
    },

    /// It works, and a heavier cord is kinder.
    KinderCord(OnCord),
    /// The cord to buy for a run.
    CordToBuy {
        /// Length of the run, m.
        length_m: f64,
        /// The size.
        size: CordSize,
    },
    /// It takes nearly all of its breaker.
    FullBreaker(OnBreaker),
    /// Wired in by an electrician: the larger breaker is lawful.
    MotorCircuit {
        /// Rating, A.
        breaker_a: f64,
        /// Largest for this motor, A.
        most_a: f64,
    },
    /// A cord reel has to be unwound.
    Reel,
    /// It stays at the first place and is not judged here.
    StaysHome,
    /// Nothing against it.
    Runs,
}
