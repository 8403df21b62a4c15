//! A place: its air, its circuit, who is near.

use std::ops::RangeInclusive;

use super::plate::bare;
use super::reader::Reader;
use super::standing::standing;
use super::wiring::{Wiring, wiring};
use super::{FOOT, PlaceBasis};
use physics::air::{Air, HUMIDITY, RATING, ZERO_CELSIUS, standard_pressure};
use physics::circuit::Code;
use quantity::{Absolute, Kind};
use shop::{Place, Units};

/// Air temperatures at which somebody works in a shop, K: -30 to 55 °C.
const WORKING_KELVIN: RangeInclusive<f64> = 243.15..=328.15;

/// Branch wire that a breaker asks for, taken where the wire is blank: breaker A, area m². The last row serves all above.
/// Source: NEC 240.4(D), 310.16; IEC 60364-5-52, 2.5 mm² being usual for outlets (from memory).
const WIRE_FOR: [(Code, f64, f64); 8] = [
    (Code::Nec, 15.0, 2.081e-6),
    (Code::Nec, 20.0, 3.309e-6),
    (Code::Nec, 30.0, 5.261e-6),
    (Code::Nec, 50.0, 13.30e-6),
    (Code::Nec, f64::MAX, 21.15e-6),
    (Code::Iec, 25.0, 2.5e-6),
    (Code::Iec, 32.0, 4e-6),
    (Code::Iec, f64::MAX, 10e-6),
];

/// The wire that a breaker asks for, m².
pub fn wire_for(code: Code, breaker_a: f64) -> f64 {
    let row = WIRE_FOR
        .iter()
        .find(|(of, breaker, _)| *of == code && breaker_a <= *breaker);
    row.map_or(WIRE_FOR[0].2, |(_, _, area_m2)| *area_m2)
}

fn place_air(reader: &mut Reader, place: &Place) -> (Air, Option<f64>, [bool; 2]) {
    let altitude = reader.or("altitude", Kind::Altitude, &place.altitude, 0.0);
    let kelvin = reader.within(
        "temperature",
        Kind::Temperature,
        &place.temperature,
        &WORKING_KELVIN,
    );
    let warmth_given = kelvin.is_some();
    let kelvin = kelvin.unwrap_or_else(|| {
        reader
            .take("temperature", Kind::Temperature, ZERO_CELSIUS + 20.0)
            .value
    });
    let humidity = reader.within("humidity", Kind::Fraction, &place.humidity, &HUMIDITY);
    let humidity = humidity.unwrap_or_else(|| reader.take("humidity", Kind::Fraction, 0.5).value);
    let stated = reader.get("station_pressure", Kind::StationPressure, &place.station_pressure);
    let pressure = stated
        .map(Absolute::pa)
        .or_else(|| standard_pressure(altitude.value).ok());
    let air = pressure.and_then(|pressure| Air::new(pressure, kelvin, humidity).ok());
    // Both ranges lie within what `air` takes, so its own refusal never decides here.
    let given = [altitude.given || stated.is_some(), warmth_given];
    (
        air.unwrap_or(RATING),
        stated.is_none().then_some(altitude.value),
        given,
    )
}

/// Mains voltage of small machines where these units are used. Common practice, no source.
pub(super) fn mains(units: Units) -> f64 {
    match units {
        Units::Us => 120.0,
        Units::Metric => 230.0,
    }
}

/// The breaker behind an outlet, where it is blank: 15 A, the face's own where a larger one is told, 16 A at 230 V, 32 A
/// behind a 13 A plug. Common practice, no source.
fn usual_breaker(wiring: &Wiring) -> f64 {
    match (wiring.code, wiring.face()) {
        (Code::Nec, Some(face)) => face.amps,
        (Code::Nec, None) => 15.0,
        (Code::Iec, Some(face)) if face.amps < 16.0 => face.breaker_a,
        (Code::Iec, Some(face)) => face.amps,
        (Code::Iec, None) => 16.0,
    }
}

/// Fields of a place that its power rests on.
const POWER_FIELDS: [&str; 16] = [
    "volts",
    "breaker",
    "other_load",
    "branch_gauge",
    "branch_length",
    "cord_gauge",
    "cord_length",
    "generator",
    "outlet",
    "wire_metal",
    "adapter",
    "generator_stands",
    "gfci",
    "spare_volts",
    "spare_breaker",
    "cord_planned",
];

pub(super) fn place_basis(reader: &mut Reader, place: &Place) -> PlaceBasis {
    let (air, altitude_m, air_given) = place_air(reader, place);
    let volts = reader.above_zero_or("volts", Kind::Voltage, &place.volts, mains(reader.units));
    let wiring = wiring(reader, place, volts.value);
    let usual_breaker = usual_breaker(&wiring);
    let breaker_a = reader.above_zero_or("breaker", Kind::Current, &bare(&place.breaker), usual_breaker);
    let usual_wire = wire_for(wiring.code, breaker_a.value);
    let gauge = reader.or("branch_gauge", Kind::WireArea, &place.branch_gauge, usual_wire);
    let length = reader.or("branch_length", Kind::Length, &place.branch_length, 40.0 * FOOT);
    let other_a = reader
        .or("other_load", Kind::Current, &place.other_load, 0.0)
        .value;
    let cord_gauge = reader.get("cord_gauge", Kind::WireArea, &place.cord_gauge);
    let cord_length = reader.get("cord_length", Kind::Length, &place.cord_length);
    let cord = match (cord_gauge, cord_length) {
        (None, None) => None,
        (Some(area), Some(length)) => Some((area, length)),
        (Some(area), None) => Some((area, reader.take("cord_length", Kind::Length, 50.0 * FOOT).value)),
        (None, Some(length)) if length > 0.0 => {
            // The cord that lies about: 16 AWG. Common practice, no source.
            Some((reader.take("cord_gauge", Kind::WireArea, 1.309e-6).value, length))
        }
        (None, Some(_)) => None,
    };
    let name = place.name.trim();
    let generator_va = reader.above_zero("generator", Kind::ApparentPower, &place.generator);
    PlaceBasis {
        unread: reader.refused(&POWER_FIELDS),
        name: if name.is_empty() {
            "this place".into()
        } else {
            name.into()
        },
        air,
        altitude_m,
        air_given,
        volts,
        wiring,
        breaker_a,
        other_a,
        branch: (gauge, length),
        cord,
        generator_va,
        listener_m: reader.above_zero_or("listener", Kind::Length, &place.listener, 10.0 * FOOT),
        neighbour_m: reader.above_zero("neighbour", Kind::Length, &place.neighbour),
        wall_loss_db: reader.or("wall_loss", Kind::LevelLoss, &place.wall_loss, 15.0),
        inlet_ducted: place.inlet_ducted,
        boxed: place.boxed,
        standing: standing(reader, place),
    }
}
