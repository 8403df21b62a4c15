//! Which hose will do: the smallest bore, or the longest hose, that keeps the loss within a share.

use uom::si::f64::{Length, Ratio, ThermodynamicTemperature};
use uom::si::length::{inch, meter};
use uom::si::ratio::ratio;

use super::draw::running;
use super::error::{LineError, check};
use super::{Hose, LENGTH_M, Line, Part, Restriction, root};
use quantity::{Absolute, Gauge};

/// Bores of air hose that shops keep, inches: 6.3, 8, 10, 12.5 and 19 mm in metric lists.
///
/// Source: nominal bores of rubber air hose, ISO 2398 and ISO 4397 (from memory). The lists go on below 1/4 in;
/// such hose feeds gauges and airbrushes and is left out.
pub const STANDARD_BORES_IN: [f64; 5] = [0.25, 0.3125, 0.375, 0.5, 0.75];

/// A hose of the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leg {
    /// From the regulator to the bench.
    Trunk,
    /// From the bench to one tool.
    Whip,
}

impl Leg {
    fn hose(self, line: &Line) -> Hose {
        match self {
            Self::Trunk => line.trunk,
            Self::Whip => line.whip,
        }
    }

    fn replaced(self, line: &Line, hose: Hose) -> Line {
        match self {
            Self::Trunk => Line { trunk: hose, ..*line },
            Self::Whip => Line { whip: hose, ..*line },
        }
    }
}

/// The smallest of [`STANDARD_BORES_IN`] for one hose with which both hoses together lose no more than `share`
/// of the regulated pressure while each tool runs at `pressure`; nothing if the largest still loses more.
///
/// The regulated pressure is what stands behind the regulator then, counted from the outside air.
///
/// # Errors
/// [`LineError::OutOfRange`].
/// # Source
/// That hoses may lose about a tenth is common practice, no source; the loss is [`super::outlet_pressure`]'s.
/// # Example
/// 50 ft of 1/4 in loses 17.8 psi of 90 to 11 scfm, 50 ft of 3/8 in loses 2.3 (`fluids` 1.3.1): within a
/// twentieth, 4.5 psi, 1/4 in is too thin and 3/8 in is enough.
/// ```
/// # use physics::line::*; use quantity::{Absolute, Gauge};
/// # use uom::si::{f64::*, length::{foot, inch}, mass_rate::gram_per_second, ratio::percent, thermodynamic_temperature::degree_celsius};
/// # let hose = |feet, inches| Hose::smooth(Length::new::<foot>(feet), Length::new::<inch>(inches));
/// # let line = Line {
/// #     regulator: Regulator::typical(Gauge::psi(90.0)),
/// #     trunk: hose(50.0, 0.25), coupler: Body::Quarter.typical(), couplers: 0, manifold: None,
/// #     whip: hose(1.0, 0.75), whips: 1, whip_couplers: 0,
/// # };
/// # let (sea, air) = (Absolute::psi(14.696), ThermodynamicTemperature::new::<degree_celsius>(20.0));
/// let at = Gauge::psi(87.7);
/// let drill = Restriction::of_tool(MassRate::new::<gram_per_second>(6.25), at.at(sea), sea, air)?;
/// let bore = smallest_bore(&line, Leg::Trunk, drill, at, Ratio::new::<percent>(5.0), (sea, air))?;
/// assert!(bore.is_some_and(|b| b > Length::new::<inch>(0.25) && b <= Length::new::<inch>(0.375)));
/// # Ok::<(), LineError>(())
/// ```
pub fn smallest_bore(
    line: &Line,
    leg: Leg,
    tool: Restriction,
    pressure: Gauge,
    share: Ratio,
    (ambient, temperature): (Absolute, ThermodynamicTemperature),
) -> Result<Option<Length>, LineError> {
    let most = check("share of loss", "(no unit)", share.get::<ratio>(), 0.0..=1.0)?;
    for bore_in in STANDARD_BORES_IN {
        let bore = Length::new::<inch>(bore_in);
        let hose = Hose {
            bore,
            ..leg.hose(line)
        };
        let tried = leg.replaced(line, hose);
        if lost_share(&tried, tool, pressure, ambient, temperature)? <= most {
            return Ok(Some(bore));
        }
    }
    Ok(None)
}

/// The greatest length of one hose with which both hoses together lose no more than `share` of the regulated
/// pressure, as in [`smallest_bore`]; nothing if even the shortest of [`LENGTH_M`] loses more.
///
/// # Errors
/// [`LineError::OutOfRange`].
/// # Source
/// As [`smallest_bore`].
/// # Example
/// 25 ft of 1/4 in loses 8.5 psi of 90 to 11 scfm (`fluids` 1.3.1):
/// ```
/// # use physics::line::*; use quantity::{Absolute, Gauge};
/// # use uom::si::{f64::*, length::{foot, inch}, mass_rate::gram_per_second, ratio::ratio, thermodynamic_temperature::degree_celsius};
/// # let hose = |feet, inches| Hose::smooth(Length::new::<foot>(feet), Length::new::<inch>(inches));
/// # let line = Line {
/// #     regulator: Regulator::typical(Gauge::psi(90.0)),
/// #     trunk: hose(0.1, 0.75), coupler: Body::Quarter.typical(), couplers: 0, manifold: None,
/// #     whip: hose(10.0, 0.25), whips: 1, whip_couplers: 0,
/// # };
/// # let (sea, air) = (Absolute::psi(14.696), ThermodynamicTemperature::new::<degree_celsius>(20.0));
/// let at = Gauge::psi(81.5);
/// let drill = Restriction::of_tool(MassRate::new::<gram_per_second>(6.25), at.at(sea), sea, air)?;
/// let length = longest_hose(&line, Leg::Whip, drill, at, Ratio::new::<ratio>(8.5 / 90.0), (sea, air))?;
/// assert!(length.is_some_and(|l| (l.get::<foot>() - 25.0).abs() < 0.3));
/// # Ok::<(), LineError>(())
/// ```
pub fn longest_hose(
    line: &Line,
    leg: Leg,
    tool: Restriction,
    pressure: Gauge,
    share: Ratio,
    (ambient, temperature): (Absolute, ThermodynamicTemperature),
) -> Result<Option<Length>, LineError> {
    let most = check("share of loss", "(no unit)", share.get::<ratio>(), 0.0..=1.0)?;
    let lost = |metres: f64| {
        let hose = Hose {
            length: Length::new::<meter>(metres),
            ..leg.hose(line)
        };
        lost_share(&leg.replaced(line, hose), tool, pressure, ambient, temperature)
    };
    let (shortest, longest) = (*LENGTH_M.start(), *LENGTH_M.end());
    if lost(shortest)? > most {
        return Ok(None);
    }
    let metres = root::largest(shortest, longest, |metres| {
        lost(metres).is_ok_and(|lost| lost <= most)
    });
    Ok(Some(Length::new::<meter>(metres)))
}

/// What both hoses lose, as a share of the regulated pressure.
fn lost_share(
    line: &Line,
    tool: Restriction,
    pressure: Gauge,
    ambient: Absolute,
    temperature: ThermodynamicTemperature,
) -> Result<f64, LineError> {
    let (upstream, _, ambient_pa) = running(line, tool, pressure, ambient, temperature)?;
    let after = |part: Part| upstream.after_pa[part as usize];
    let lost = after(Part::Regulator) - after(Part::Trunk) + after(Part::Manifold) - after(Part::Whip);
    let regulated = after(Part::Regulator) - ambient_pa;
    Ok(if regulated > 0.0 { lost / regulated } else { 0.0 })
}
