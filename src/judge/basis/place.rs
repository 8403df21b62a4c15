//! A place: its air, its circuit, who is near.

use super::PlaceBasis;
use super::plate::three_phase;
use super::reader::Reader;
use super::standing::standing;
use super::wiring::{Wiring, wiring};
use physics::air::{Air, RATING, standard_pressure};
use physics::circuit::Code;
use quantity::around::without;
use quantity::field::Bears;
use quantity::gauge::area_m2;
use quantity::{Absolute, K_AT_0_C, M_PER_FT, Origin};
use shop::{Place, Units};

/// Branch wire that a breaker asks for, taken where the wire is blank: breaker A, gauge. The last row serves all above.
/// Source: NEC 240.4(D), 310.16 (from memory).
const GAUGE_FOR: [(f64, i8); 5] = [(15.0, 14), (20.0, 12), (30.0, 10), (50.0, 6), (f64::MAX, 4)];
/// The same in mm², 2.5 mm² being usual for outlets. Source: IEC 60364-5-52 (from memory).
const MM2_FOR: [(f64, f64); 3] = [(25.0, 2.5), (32.0, 4.0), (f64::MAX, 10.0)];

/// The wire that a breaker asks for, m².
pub fn wire_for(code: Code, breaker_a: f64) -> f64 {
    let nec = || GAUGE_FOR.iter().find(|(most, _)| breaker_a <= *most);
    let iec = || MM2_FOR.iter().find(|(most, _)| breaker_a <= *most);
    match code {
        Code::Nec => area_m2(nec().map_or(GAUGE_FOR[0].1, |(_, gauge)| *gauge)),
        Code::Iec => 1e-6 * iec().map_or(MM2_FOR[0].1, |(_, mm2)| *mm2),
    }
}

fn place_air(reader: &mut Reader, place: &Place) -> (Air, Option<f64>, [Origin; 2]) {
    let altitude = reader.or("altitude", &place.altitude, 0.0);
    let warmth = reader.or("temperature", &place.temperature, K_AT_0_C + 20.0);
    let humidity = reader.or("humidity", &place.humidity, 0.5).value;
    let stated = reader.get("station_pressure", &place.station_pressure);
    let pressure = match stated {
        Some(pressure) => Ok(Absolute::pa(pressure)),
        None => standard_pressure(altitude.value),
    };
    // The table's ranges lie within what `air` takes, which a test looks after.
    let air = pressure.and_then(|pressure| Air::new(pressure, warmth.value, humidity));
    let air = air.unwrap_or_else(|error| {
        reader.refuse("temperature", error);
        RATING
    });
    let of_pressure = if stated.is_some() {
        Origin::Typed
    } else {
        altitude.origin
    };
    let origins = [of_pressure, warmth.origin];
    (air, stated.is_none().then_some(altitude.value), origins)
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

pub(super) fn place_basis(reader: &mut Reader, place: &Place) -> PlaceBasis {
    let name = reader.words("name", &place.name);
    let (air, altitude_m, air_origins) = place_air(reader, place);
    let (printed_volts, three_phase) = three_phase(&place.volts);
    let volts = reader.or("volts", &printed_volts, mains(reader.units));
    let wiring = Wiring {
        three_phase,
        ..wiring(reader, place, volts.value)
    };
    let usual_breaker = usual_breaker(&wiring);
    let breaker_a = reader.or(
        "breaker",
        &without(&place.breaker, &["circuit", "breaker"]),
        usual_breaker,
    );
    let usual_wire = wire_for(wiring.code, breaker_a.value);
    let gauge = reader.or("branch_gauge", &place.branch_gauge, usual_wire);
    let usual_length = match reader.units {
        Units::Us => 40.0 * M_PER_FT,
        Units::Metric => 12.0,
    };
    let length = reader.or("branch_length", &place.branch_length, usual_length);
    let other_a = reader.or("other_load", &place.other_load, 0.0).value;
    let cord_gauge = reader.get("cord_gauge", &place.cord_gauge);
    let cord_length = reader.get("cord_length", &place.cord_length);
    let cord = match (cord_gauge, cord_length) {
        (None, None) => None,
        (Some(area), Some(length)) => Some((area, length)),
        (Some(area), None) => Some((area, reader.take("cord_length", 50.0 * M_PER_FT).value)),
        (None, Some(length)) if length > 0.0 => {
            // The cord that lies about: 16 AWG. Common practice, no source.
            Some((reader.take("cord_gauge", area_m2(16)).value, length))
        }
        (None, Some(_)) => None,
    };
    let generator_va = reader.get("generator", &place.generator);
    PlaceBasis {
        unread: reader.first_refused(Bears::Power),
        unread_air: reader.unread_air(),
        name: if name.is_empty() {
            "this place".into()
        } else {
            name.into()
        },
        air,
        altitude_m,
        air_origins,
        volts,
        wiring,
        breaker_a,
        other_a,
        other_name: reader.words("other_name", &place.other_name).into(),
        branch: (gauge, length),
        cord,
        generator_va,
        listener_m: reader.or("listener", &place.listener, 10.0 * M_PER_FT),
        neighbour_m: reader.get("neighbour", &place.neighbour),
        wall_loss_db: reader.or("wall_loss", &place.wall_loss, 15.0),
        inlet_ducted: place.inlet_ducted,
        boxed: place.boxed,
        standing: standing(reader, place),
    }
}
