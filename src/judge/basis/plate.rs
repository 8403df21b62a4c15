//! What plates print beside one figure: pairs of voltages and currents, phases and hertz.

use super::Connection;
use super::reader::Reader;
use physics::circuit::MIDDLE_VOLTS;
use quantity::around::{bare, two_figures};
use quantity::{Kind, lower, would_be};

/// Plates of motors for two voltages print pairs, "115/230 V" and "15/7.5 A"; some print volts, phases and hertz,
/// "120-1-60". Gives the texts of volts and amps that belong to the voltage nearest to `usual_volts`.
pub(super) fn pair(reader: &Reader, volts: &str, amps: &str, usual_volts: f64) -> (String, String) {
    let (volts, amps) = (bare(Kind::Voltage, volts), bare(Kind::Current, amps));
    let read_volts = |part: &str| would_be(Kind::Voltage, part, reader.units);
    if volts.is_empty() || read_volts(&volts).is_some() {
        let amps = of_two_currents(reader, &amps, read_volts(&volts).unwrap_or(usual_volts));
        return (volts, amps);
    }
    let hertz = |part: &str| part.to_ascii_lowercase().ends_with("hz");
    let parts: Vec<(&str, f64)> = volts
        .split(['/', '-', '~', ',', ' '])
        .filter(|part| !hertz(part))
        .filter_map(|part| Some((part, read_volts(part)?)))
        .collect();
    let off = |at: &usize| (parts[*at].1 - usual_volts).abs();
    let Some(index) = (0..parts.len()).min_by(|one, other| off(one).total_cmp(&off(other))) else {
        return (volts, amps);
    };
    let amps_parts: Vec<&str> = amps.split('/').map(str::trim).collect();
    let paired = parts.len() > 1 && amps_parts.len() == parts.len();
    let amps = if paired {
        amps_parts[index].to_owned()
    } else {
        amps.clone()
    };
    (parts[index].0.to_owned(), amps)
}

/// Of two currents for two voltages the larger belongs to the lower one.
fn of_two_currents(reader: &Reader, amps: &str, volts: f64) -> String {
    let read_amps = |part: &str| would_be(Kind::Current, part, reader.units);
    let parts = amps.split_once('/').filter(|_| two_figures(amps));
    let read = parts.and_then(|(one, other)| Some((one, read_amps(one)?, other, read_amps(other)?)));
    match read {
        Some((one, first, other, second)) if (first > second) == (volts < MIDDLE_VOLTS) => {
            let unit = other.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
            format!("{one}{unit}")
        }
        Some((_, _, other, _)) => other.into(),
        None => amps.into(),
    }
}

/// Voltages closer than this, as a ratio, are one connection: "208-230", "220/240". Common practice, no source.
const ONE_CONNECTION: f64 = 1.3;

/// Currents of a motor for two voltages are about as two to one.
const TWO_TO_ONE: std::ops::RangeInclusive<f64> = 1.7..=2.3;

/// Every way to connect a motor that its plate lists: "120/240 V" with "15/7.5 A" is two, "208-230 V" is one.
/// Of two voltages and one current, the current belongs to the lower. Silent on volts, two currents as 2 to 1 are 120 and 240 V.
pub(super) fn connections(reader: &Reader, volts: &str, amps: &str) -> Vec<Connection> {
    let currents = figures(reader, Kind::Current, &bare(Kind::Current, amps));
    let mut found: Vec<Connection> = Vec::new();
    for volts in figures(reader, Kind::Voltage, &bare(Kind::Voltage, volts)) {
        match found.last_mut() {
            Some(last) if near(last.volts, volts) => {
                last.volts = [last.volts[0].min(volts), last.volts[1].max(volts)];
            }
            // What stands behind the volts in "120-1-60" is phases and hertz.
            Some(_) if volts < 90.0 => {}
            _ => found.push(Connection {
                volts: [volts; 2],
                amps: None,
            }),
        }
    }
    if let ([], [high, low]) = (&found[..], &currents[..])
        && TWO_TO_ONE.contains(&(high / low))
    {
        let at = |volts: f64, amps: &f64| Connection {
            volts: [volts; 2],
            amps: Some(*amps),
        };
        return vec![at(120.0, high), at(240.0, low)];
    }
    let most = currents.iter().copied().reduce(f64::max);
    let lowest = found.iter().map(|one| one.volts[0]).fold(f64::MAX, f64::min);
    let paired = found.len() == currents.len();
    for (index, one) in found.iter_mut().enumerate() {
        one.amps = if paired {
            currents.get(index).copied()
        } else {
            most.map(|amps| amps * lowest / one.volts[0])
        };
    }
    found
}

fn near(range: [f64; 2], volts: f64) -> bool {
    (range[0].max(volts) / range[1].min(volts)) < ONE_CONNECTION
}

/// The figures of a kind in a text that lists several.
fn figures(reader: &Reader, kind: Kind, text: &str) -> Vec<f64> {
    let parts = text.split(['/', '-', '–', '~', ',', ' ']);
    parts
        .filter(|part| !part.to_ascii_lowercase().ends_with("hz"))
        .filter_map(|part| would_be(kind, part, reader.units))
        .filter(|value| *value > 0.0)
        .collect()
}

/// The text of a plate's volts without its phases, and whether those are three: "230 V 3-phase", "400 V 3~", "230-3-60".
pub(super) fn three_phase(volts: &str) -> (String, bool) {
    const NAMES: [&str; 10] = [
        "3-phase",
        "3 phase",
        "three-phase",
        "three phase",
        "3-ph",
        "3 ph",
        "3ph",
        "3phase",
        "3~",
        "3φ",
    ];
    let lower = lower(volts);
    let named = NAMES
        .iter()
        .find_map(|name| Some((lower.find(name)?, name.len())));
    match named {
        Some((at, length)) => {
            let rest = format!("{} {}", &lower[..at], &lower[at + length..]);
            (
                rest.trim().trim_end_matches([',', ';']).trim_end().to_owned(),
                true,
            )
        }
        None => (volts.into(), lower.contains("-3-")),
    }
}
