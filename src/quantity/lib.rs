//! Quantities: units, ranges, text in and out; gauge and absolute pressure and free-air flow as types of their own.
//!
//! **In:** a text as typed, and what its field asks for ([`Kind`]). **Out:** a value in SI, or a [`ReadError`] that names
//! what was read and what would do. SI inside, the user's units outside. [`uom`] carries the dimensions; the types here
//! carry what a dimension cannot: from which zero a pressure counts, and at which state a volume flow was measured.
//! Nothing here knows a shop or a machine but by the names of their fields. Begin with [`mod@field`], the table of what
//! each field may hold, then [`kind`], what each kind of unit may.

pub mod around;
pub mod factor;
pub mod field;
pub mod gauge;
pub mod kind;
mod known;
mod letters;
mod machine_kind;
mod numeral;
pub mod order;
pub mod range;
pub mod read;
mod unit;
mod units;
pub mod write;

pub use factor::{
    K_AT_0_C, KG_PER_LB, M_PER_FT, M_PER_IN, M3_PER_FT3, M3_PER_GALLON, M3_S_PER_CFM, PA_PER_PSI, S_PER_H,
    S_PER_MIN, STANDARD_GRAVITY, W_PER_HP,
};
pub use kind::Kind;
pub use known::{Known, Origin};
pub use letters::{is_capital, lower};
pub use machine_kind::MachineKind;
pub use read::{ReadError, bare_number, digits, read, read_flow_at, would_be};
pub use unit::CURRENCY;
pub use units::Units;
pub use write::{figure, number, plain, short, write};

use uom::si::f64::{MassDensity, MassRate, Pressure, VolumeRate};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

/// A pressure counted from vacuum. Ratios of these mean something.
///
/// ```
/// # use quantity::{Absolute, Gauge};
/// fn ratio(outlet: Absolute, inlet: Absolute) -> f64 { outlet.as_pa() / inlet.as_pa() }
/// let site = Absolute::psi(12.2);
/// assert!((ratio(Gauge::psi(90.0).at(site), site) - 8.377).abs() < 0.001);
/// ```
///
/// A dial reading is no pressure ratio, so this does not compile:
/// ```compile_fail
/// # use quantity::{Absolute, Gauge};
/// fn ratio(outlet: Absolute, inlet: Absolute) -> f64 { outlet.as_pa() / inlet.as_pa() }
/// let site = Absolute::psi(12.2);
/// ratio(Gauge::psi(90.0), site);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Absolute(Pressure);

impl Absolute {
    /// From pascal above vacuum.
    pub fn pa(value: f64) -> Self {
        Self(Pressure::new::<pascal>(value))
    }
    /// From pounds per square inch above vacuum (psia).
    pub fn psi(value: f64) -> Self {
        Self::pa(value * PA_PER_PSI)
    }
    /// In pascal above vacuum.
    pub fn as_pa(self) -> f64 {
        self.0.get::<pascal>()
    }
    /// In pounds per square inch above vacuum.
    pub fn as_psi(self) -> f64 {
        self.as_pa() / PA_PER_PSI
    }
    /// What a dial shows of this pressure where the outside air has `ambient`.
    pub fn above(self, ambient: Self) -> Gauge {
        Gauge::pa(self.as_pa() - ambient.as_pa())
    }
}

/// A pressure counted from the outside air: what a dial shows and a label states.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Gauge(Pressure);

impl Gauge {
    /// From pascal above the outside air.
    pub fn pa(value: f64) -> Self {
        Self(Pressure::new::<pascal>(value))
    }
    /// From pounds per square inch above the outside air (psig).
    pub fn psi(value: f64) -> Self {
        Self::pa(value * PA_PER_PSI)
    }
    /// In pascal above the outside air.
    pub fn as_pa(self) -> f64 {
        self.0.get::<pascal>()
    }
    /// In pounds per square inch above the outside air.
    pub fn as_psi(self) -> f64 {
        self.as_pa() / PA_PER_PSI
    }
    /// The same pressure counted from vacuum where the outside air has `ambient`.
    pub fn at(self, ambient: Absolute) -> Absolute {
        Absolute::pa(self.as_pa() + ambient.as_pa())
    }
}

/// Volume flow counted at the inlet's air (ISO 1217): what a label's cfm means.
///
/// Free air is a mass flow in disguise; the disguise comes off with the inlet's density:
/// ```
/// # use quantity::FreeAir;
/// # use uom::si::{f64::MassDensity, mass_density::kilogram_per_cubic_meter};
/// let density = MassDensity::new::<kilogram_per_cubic_meter>(1.2);
/// fn delivered(flow: FreeAir) -> f64 { flow.as_cfm() }
/// let mass = FreeAir::cfm(10.0).mass(density);
/// assert!((delivered(FreeAir::of_mass(mass, density)) - 10.0).abs() < 1e-12);
/// ```
///
/// A flow at tank pressure is not free air, so this does not compile:
/// ```compile_fail
/// # use quantity::FreeAir;
/// # use uom::si::{f64::VolumeRate, volume_rate::cubic_foot_per_minute};
/// fn delivered(flow: FreeAir) -> f64 { flow.as_cfm() }
/// delivered(VolumeRate::new::<cubic_foot_per_minute>(10.0));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct FreeAir(VolumeRate);

impl FreeAir {
    /// From cubic metres per second.
    pub fn m3_s(value: f64) -> Self {
        Self(VolumeRate::new::<cubic_meter_per_second>(value))
    }
    /// From cubic feet per minute.
    pub fn cfm(value: f64) -> Self {
        Self::m3_s(value * M3_S_PER_CFM)
    }
    /// In cubic metres per second.
    pub fn as_m3_s(self) -> f64 {
        self.0.get::<cubic_meter_per_second>()
    }
    /// In cubic feet per minute.
    pub fn as_cfm(self) -> f64 {
        self.as_m3_s() / M3_S_PER_CFM
    }
    /// The mass flow, where the inlet's air has `density`.
    pub fn mass(self, density: MassDensity) -> MassRate {
        self.0 * density
    }
    /// The free air that makes a mass flow, where the inlet's air has `density`.
    pub fn of_mass(mass: MassRate, density: MassDensity) -> Self {
        Self::m3_s(mass.get::<kilogram_per_second>() / density.get::<kilogram_per_cubic_meter>())
    }
}
