//! Reads figures as the page shows them into SI, with units of this file's own.

/// Unit as written, SI value of one. Definitions of the international foot, inch, pound, gallon (231 in³) and of
/// the mechanical horsepower (550 ft lbf/s).
const UNITS: [(&str, f64); 42] = [
    ("mL/h", 1e-6 / 3_600.0),
    ("dm³/s/bar", 1e-8),
    ("psi/cfm", 6_894.757_293 * 60.0 / 0.028_316_846_592),
    ("bar/100L/min", 1e5 * 600.0),
    ("cfm", 0.028_316_846_592 / 60.0),
    ("L/min", 1e-3 / 60.0),
    ("psi", 6_894.757_293),
    ("bar", 1e5),
    ("inHg", 3_386.389),
    ("hPa", 100.0),
    ("kPa", 1e3),
    ("gal", 3.785_411_784e-3),
    ("L", 1e-3),
    ("mL", 1e-6),
    ("ft", 0.3048),
    ("in", 0.0254),
    ("mm", 1e-3),
    ("m", 1.0),
    ("V", 1.0),
    ("A", 1.0),
    ("ohm", 1.0),
    ("W", 1.0),
    ("kW", 1e3),
    ("hp", 745.699_87),
    ("%", 0.01),
    ("lb", 0.453_592_37),
    ("kg", 1.0),
    ("g", 1e-3),
    ("g/s", 1e-3),
    ("dBA", 1.0),
    ("dB", 1.0),
    ("s", 1.0),
    ("min", 60.0),
    ("h", 3_600.0),
    ("kg/m³", 1.0),
    ("lb/ft³", 0.453_592_37 / 0.028_316_846_592),
    ("g/kg", 1e-3),
    ("ohm/km", 1e-3),
    ("ohm/kft", 1.0 / 304.8),
    ("m²", 1.0),
    ("ft²", 0.3048 * 0.3048),
    ("N", 1.0),
];

/// A figure and half of its last step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Read {
    pub value: f64,
    pub half: f64,
}

/// Half a step of a figure of three figures, or of as many as are printed where those are more.
fn half(digits: &str, value: f64) -> f64 {
    let printed = digits.split_once('.').map_or(0, |(_, part)| part.len());
    let size = value.abs();
    let limits = [100.0, 10.0, 1.0, 0.1, 0.01, 1e-3, 1e-4, 1e-5];
    let three = limits.iter().take_while(|limit| size < **limit).count();
    0.5 * 10f64.powi(-(three.max(printed) as i32))
}

/// "3/8" and "1-1/2" as well as "1,234.5".
fn bare(digits: &str) -> Option<f64> {
    let plain = |text: &str| text.replace(',', "").parse::<f64>().ok();
    match digits.split_once('/') {
        None => plain(digits),
        Some((above, below)) => {
            let (whole, above) = above.split_once('-').unwrap_or(("0", above));
            Some(plain(whole)? + plain(above)? / plain(below)?)
        }
    }
}

/// All figures of a text in SI; "2 min 10 s" is one.
pub fn figures(text: &str) -> Vec<Read> {
    // Units of more than one word, as one.
    let text = text
        .replace("bar per 100 L/min", "bar/100L/min")
        .replace("dm³/(s bar)", "dm³/s/bar");
    let text = text.replace(['(', ')', ';'], " ");
    let mut words = text.split_whitespace().peekable();
    let mut found: Vec<Read> = Vec::new();
    let mut last_is_time = false;
    while let Some(word) = words.next() {
        let word = word.trim_end_matches(',');
        let digits = word.trim_start_matches('$').trim_start_matches("-$");
        let Some(value) = bare(digits) else {
            last_is_time = false;
            continue;
        };
        let step = half(digits, value);
        let unit = words.peek().map_or("", |unit| unit.trim_end_matches([',', '.']));
        let read = match unit {
            "°F" => Read {
                value: (value + 459.67) / 1.8,
                half: 0.05 / 1.8,
            },
            "°C" => Read {
                value: value + 273.15,
                half: 0.05,
            },
            // ASTM B258.
            "AWG" => {
                let number: f64 = value;
                let metres = 0.005 * 0.0254 * 92f64.powf((36.0 - number) / 39.0);
                Read {
                    value: std::f64::consts::FRAC_PI_4 * metres * metres,
                    half: 0.0,
                }
            }
            _ => {
                let scale = UNITS
                    .iter()
                    .find(|(name, _)| *name == unit)
                    .map_or(1.0, |(_, scale)| *scale);
                Read {
                    value: value * scale,
                    half: step * scale,
                }
            }
        };
        let time = matches!(unit, "s" | "min" | "h");
        match found.last_mut() {
            Some(last) if time && last_is_time => {
                *last = Read {
                    value: last.value + read.value,
                    half: read.half,
                };
            }
            _ => found.push(read),
        }
        if UNITS.iter().any(|(name, _)| *name == unit) || matches!(unit, "°F" | "°C" | "AWG") {
            words.next();
        }
        last_is_time = time;
    }
    found
}

#[test]
fn figures_are_read_as_written() {
    let values = |text: &str| {
        figures(text)
            .iter()
            .map(|read| (read.value * 1e4).round() / 1e4)
            .collect::<Vec<_>>()
    };
    assert_eq!(values("$12 to $1,040"), [12.0, 1_040.0]);
    assert_eq!(values("2 min 10 s of 50 %"), [130.0, 0.5]);
    assert_eq!(values("3/8 in, 15 A"), [0.0095, 15.0]);
    assert_eq!(figures("12 A")[0].half, 0.05);
    assert_eq!(figures("120 V")[0].half, 0.5);
}
