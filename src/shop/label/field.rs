//! The fields of a machine that a label can fill.

use crate::{Candidate, Typed};
use quantity::Kind;

macro_rules! fields {
    ($($id:ident $name:ident $kind:expr, $words:literal;)*) => {
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

            /// What it is called in a sentence.
            pub(super) fn words(self) -> &'static str {
                match self {
                    $(Self::$id => $words,)*
                    Self::Kind => "pump type",
                    Self::Wheels => "wheels",
                }
            }

            /// How its text is read; none where words are kept as they are.
            pub fn kind(self) -> Option<Kind> {
                match self {
                    $(Self::$id => $kind,)*
                    Self::Kind | Self::Wheels => None,
                }
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
    Flow flow Some(Kind::Flow), "flow";
    At at Some(Kind::Pressure), "pressure of the flow";
    Flow2 flow2 Some(Kind::Flow), "second flow";
    At2 at2 Some(Kind::Pressure), "pressure of the second flow";
    Suction suction Some(Kind::Flow), "suction";
    Tank tank Some(Kind::Volume), "tank";
    Volts volts Some(Kind::Voltage), "volts";
    Amps amps Some(Kind::Current), "amps";
    Power power Some(Kind::Power), "power";
    PeakPower peak_power Some(Kind::Power), "peak power";
    Start start None, "start";
    Plug plug None, "plug";
    CutIn cut_in Some(Kind::Pressure), "cut-in";
    CutOut cut_out Some(Kind::Pressure), "max pressure";
    Stamp stamp None, "tank stamp";
    Relief relief Some(Kind::Pressure), "relief valve";
    Duty duty Some(Kind::Fraction), "duty";
    Sound sound Some(Kind::SoundLevel), "sound";
    SoundAt sound_at Some(Kind::Length), "distance of the sound";
    SoundPower sound_power Some(Kind::SoundLevel), "sound power";
    Weight weight Some(Kind::Mass), "weight";
    Price price Some(Kind::Money), "price";
    Pump pump None, "pump";
    PumpUp pump_up Some(Kind::Duration), "pump-up time";
    PumpFrom pump_from Some(Kind::Pressure), "pump-up from";
    PumpTo pump_to Some(Kind::Pressure), "pump-up to";
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
