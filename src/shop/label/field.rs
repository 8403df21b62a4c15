//! The fields of a machine that a label can fill.

use crate::{Candidate, Typed};
use quantity::field::{self, CANDIDATES};

macro_rules! fields {
    ($($id:ident $name:ident)*) => {
        /// A field of [`Candidate`] that a label can fill.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Field {
            $(#[doc = concat!("[`Candidate::", stringify!($name), "`]")] $id,)*
            /// [`Candidate::kind`], by its word.
            Kind,
            /// [`Candidate::wheels`]: "yes".
            Wheels,
        }

        impl Field {
            /// The field's name in a file: "flow", "cut_out".
            pub fn name(self) -> &'static str {
                match self {
                    $(Self::$id => stringify!($name),)*
                    Self::Kind => "kind",
                    Self::Wheels => "wheels",
                }
            }

            /// Its row in the table of fields: what it is called and what it may hold.
            pub fn row(self) -> &'static field::Field {
                CANDIDATES.row(self.name())
            }

            /// Where its text goes.
            fn slot(self, candidate: &mut Candidate) -> Option<&mut Typed> {
                match self {
                    $(Self::$id => Some(&mut candidate.$name),)*
                    Self::Kind | Self::Wheels => None,
                }
            }
        }
    };
}

fields! {
    Flow flow
    At at
    Flow2 flow2
    At2 at2
    Suction suction
    Tank tank
    Volts volts
    Amps amps
    Power power
    PeakPower peak_power
    Start start
    Plug plug
    CutIn cut_in
    CutOut cut_out
    Stamp stamp
    Relief relief
    Duty duty
    Sound sound
    SoundAt sound_at
    SoundPower sound_power
    Weight weight
    Price price
    Pump pump
    PumpUp pump_up
    PumpFrom pump_from
    PumpTo pump_to
}

impl Field {
    /// Puts a text into this field of a machine.
    pub(super) fn put(self, text: &str, candidate: &mut Candidate) {
        match self {
            Self::Wheels => candidate.wheels = true,
            Self::Kind => {
                if let Some(kind) = crate::word::named(text) {
                    candidate.kind = kind;
                }
            }
            field => {
                if let Some(slot) = field.slot(candidate) {
                    *slot = text.into();
                }
            }
        }
    }
}
