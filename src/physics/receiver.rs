//! The tank: mass and energy of the air in it.
//!
//! Hot air comes in, expanding air cools, and the walls give and take heat. The handbook's isothermal formula
//! is the slow limit of this balance, the adiabatic one the fast limit.

/// Specific gas constant of dry air, J/(kg K): 8.314 32 / 0.028 964 4.
/// Source: US Standard Atmosphere 1976, defining constants (from memory).
pub const R_DRY_AIR: f64 = 287.053;

/// Specific heat of dry air at constant volume, J/(kg K): R / (γ − 1) with γ = 1.4.
pub const CV: f64 = R_DRY_AIR / 0.4;

/// Specific heat of dry air at constant pressure, J/(kg K): cv + R.
pub const CP: f64 = CV + R_DRY_AIR;

/// Thermal conductivity of air at 300 K, W/(m K). Source: handbook value, from memory.
const CONDUCTIVITY: f64 = 0.0262;
/// Viscosity of air at 300 K, Pa s. Source: handbook value, from memory.
const VISCOSITY: f64 = 1.85e-5;
/// Prandtl number of air at 300 K. Source: handbook value, from memory.
const PRANDTL: f64 = 0.71;
/// Standard gravity, m/s².
const GRAVITY: f64 = quantity::STANDARD_GRAVITY;

/// How the walls exchange heat with the air inside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Walls {
    /// No exchange: the fast limit.
    Adiabatic,
    /// Natural convection to walls at the place's temperature.
    Natural,
    /// The air keeps the walls' temperature: the slow limit, on which the handbook formula rests.
    Isothermal,
}

/// A tank with all that is openly joined to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Receiver {
    /// Inner volume, m³.
    pub volume_m3: f64,
    /// Inner surface, m².
    pub area_m2: f64,
    /// Temperature of the walls, K.
    pub wall_k: f64,
    /// How they exchange heat.
    pub walls: Walls,
}

/// What is in the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// Mass of air, kg.
    pub mass_kg: f64,
    /// Its temperature, K.
    pub kelvin: f64,
}

/// Air that flows in and out of the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flows {
    /// Mass flow in, kg/s.
    pub in_kg_s: f64,
    /// Temperature at which it comes in, K.
    pub in_kelvin: f64,
    /// Mass flow out, kg/s.
    pub out_kg_s: f64,
}

/// What goes on in the middle of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Halfway {
    /// Flows in and out.
    pub flows: Flows,
    /// Heat that the walls exchange, W/K.
    pub conductance: f64,
}

/// Inner surface of a cylinder three times as long as wide: A = 3.5 π D², V = 3 π D³ / 4.
///
/// Common practice for the proportion of portable tanks, no source; the surface changes by under 6 %
/// between lengths of two and five diameters.
pub fn surface_m2(volume_m3: f64) -> f64 {
    let diameter = cube_root(4.0 * volume_m3 / (3.0 * std::f64::consts::PI));
    3.5 * std::f64::consts::PI * diameter * diameter
}

/// Cube root, from a guess at the exponent's third and two steps of Halley: y (y³ + 2x) / (2 y³ + x).
///
/// Heat exchange asks for it several times a step. The standard library's is rounded to the last digit by fused
/// multiplications, which WebAssembly has to imitate, and took a quarter of every run; this one is the same on every
/// machine.
///
/// # Validity
/// From 10⁻³⁰ up, to 10⁻¹¹ of itself; below that it is zero.
/// # Source
/// Kahan, "Computing a real cube root" (1991), for the guess (constant from memory).
/// ```
/// # use physics::receiver::cube_root;
/// assert!((cube_root(27.0) - 3.0).abs() < 1e-10 && cube_root(0.0) == 0.0);
/// ```
#[inline]
pub fn cube_root(x: f64) -> f64 {
    const THIRD_OF_BIAS: u64 = 0x2A9F_7893_782D_A1CE;
    if x < 1e-30 {
        return 0.0;
    }
    let halley = |y: f64| {
        let cube = y * y * y;
        y * (cube + x + x) / (cube + cube + x)
    };
    halley(halley(f64::from_bits(x.to_bits() / 3 + THIRD_OF_BIAS)))
}

impl Receiver {
    /// A cylindrical tank whose walls have the temperature `wall_k`.
    pub fn cylinder(volume_m3: f64, wall_k: f64) -> Self {
        Self {
            volume_m3,
            area_m2: surface_m2(volume_m3),
            wall_k,
            walls: Walls::Natural,
        }
    }

    /// The same tank with other walls, for the limits.
    pub fn with_walls(self, walls: Walls) -> Self {
        Self { walls, ..self }
    }

    /// The state at a pressure and temperature: m = p V / (R T).
    pub fn state(&self, pressure_pa: f64, kelvin: f64) -> State {
        State {
            mass_kg: pressure_pa * self.volume_m3 / (R_DRY_AIR * kelvin),
            kelvin,
        }
    }

    /// Absolute pressure in the tank, Pa: p = m R T / V.
    #[inline]
    pub fn pressure_pa(&self, state: State) -> f64 {
        state.mass_kg * R_DRY_AIR * state.kelvin / self.volume_m3
    }

    /// Heat that the walls exchange per kelvin of difference, W/K: h A with
    /// Nu = 0.13 Ra^(1/3), so h = 0.13 k ( g Pr |ΔT| / T )^(1/3) (ρ/μ)^(2/3), whatever the length.
    ///
    /// | symbol | meaning | unit | from |
    /// |---|---|---|---|
    /// | k, μ, Pr | conductivity, viscosity, Prandtl number of air at 300 K | W/(m K), Pa s, 1 | constants |
    /// | ΔT, T | wall less air; air | K | `state` |
    /// | ρ | density in the tank | kg/m³ | `state` |
    ///
    /// # Validity
    /// Turbulent natural convection, Ra from 10⁹ to 10¹³; a jet from the inlet adds some exchange that this leaves out.
    /// # Source
    /// Turbulent free convection, e.g. Incropera (coefficient 0.10 to 0.15 by shape; from memory).
    #[inline]
    pub fn wall_conductance(&self, state: State) -> f64 {
        const GROUP: f64 = GRAVITY * PRANDTL / (VISCOSITY * VISCOSITY);
        let density = state.mass_kg / self.volume_m3;
        let difference = (self.wall_k - state.kelvin).abs() / state.kelvin;
        0.13 * CONDUCTIVITY * cube_root(GROUP * density * density * difference) * self.area_m2
    }

    /// Rates of mass (kg/s) and temperature (K/s):
    /// dm/dt = ṁᵢ − ṁₒ,  m cv dT/dt = ṁᵢ (cp Tᵢ − cv T) − ṁₒ R T + h A (T_w − T).
    ///
    /// # Validity
    /// Ideal gas with constant specific heats, well mixed; walls much heavier than the air.
    /// # Source
    /// First law for an open system with u = cv T, h = cp T.
    #[inline]
    pub fn rates(&self, state: State, flows: Flows) -> (f64, f64) {
        self.rates_with(state, flows, self.wall_conductance(state))
    }

    /// [`Self::rates`] where [`Self::wall_conductance`] is already known.
    #[inline]
    pub fn rates_with(&self, state: State, flows: Flows, conductance: f64) -> (f64, f64) {
        let mass_rate = flows.in_kg_s - flows.out_kg_s;
        if self.walls == Walls::Isothermal {
            return (mass_rate, 0.0);
        }
        let wall = match self.walls {
            Walls::Natural => conductance * (self.wall_k - state.kelvin),
            _ => 0.0,
        };
        let power = flows.in_kg_s * (CP * flows.in_kelvin - CV * state.kelvin)
            - flows.out_kg_s * R_DRY_AIR * state.kelvin
            + wall;
        (mass_rate, power / (state.mass_kg * CV))
    }

    /// The state after `seconds`, by the midpoint rule; `flows` gives the flows at a pressure.
    ///
    /// # Validity
    /// Steps in which pressure changes by a few per cent and which are short against the walls' time constant.
    #[inline]
    pub fn step(&self, state: State, seconds: f64, flows: impl Fn(f64) -> Flows) -> State {
        let (mass_rate, warming) = self.rates(state, flows(self.pressure_pa(state)));
        self.step_from(state, (mass_rate, warming), seconds, flows).0
    }

    /// [`Self::step`] where the rates at its start are already known; also what went on halfway.
    #[inline]
    pub fn step_from(
        &self,
        state: State,
        (mass_rate, warming): (f64, f64),
        seconds: f64,
        flows: impl Fn(f64) -> Flows,
    ) -> (State, Halfway) {
        let half = State {
            mass_kg: (state.mass_kg + 0.5 * seconds * mass_rate).max(1e-9),
            kelvin: (state.kelvin + 0.5 * seconds * warming).clamp(100.0, 1_000.0),
        };
        let halfway = Halfway {
            flows: flows(self.pressure_pa(half)),
            conductance: self.wall_conductance(half),
        };
        let (mass_rate, warming) = self.rates_with(half, halfway.flows, halfway.conductance);
        let state = State {
            mass_kg: (state.mass_kg + seconds * mass_rate).max(1e-9),
            kelvin: (state.kelvin + seconds * warming).clamp(100.0, 1_000.0),
        };
        (state, halfway)
    }
}

/// Seconds a tank of constant temperature lasts: t = V (p₁ − p₂) / (Q p_atm), the handbook formula.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V | volume | m³ | `volume_m3` |
/// | p₁, p₂ | from, to | Pa | `from_pa`, `to_pa` |
/// | Q | free air drawn beyond what is delivered | m³/s | `free_air_m3_s` |
/// | p_atm | outside air | Pa | `ambient_pa` |
///
/// # Validity
/// The slow limit: quick draws are over in up to 1/1.4 of this time, as the air left behind cools.
/// # Source
/// CAGI handbook; DOE compressed-air sourcebook (from memory).
/// # Example
/// A 20 gal tank holds an 11 cfm drill for about 30 s between 120 and 90 psi:
/// ```
/// # use quantity::{M3_PER_GALLON, M3_S_PER_CFM, PA_PER_PSI}; use physics::receiver::isothermal_seconds;
/// let seconds = isothermal_seconds(20.0 * M3_PER_GALLON, 120.0 * PA_PER_PSI, 90.0 * PA_PER_PSI,
///     11.0 * M3_S_PER_CFM, 14.696 * PA_PER_PSI);
/// assert!((seconds - 29.8).abs() < 0.1);
/// ```
pub fn isothermal_seconds(
    volume_m3: f64,
    from_pa: f64,
    to_pa: f64,
    free_air_m3_s: f64,
    ambient_pa: f64,
) -> f64 {
    volume_m3 * (from_pa - to_pa) / (free_air_m3_s * ambient_pa)
}
