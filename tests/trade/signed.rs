//! Labels, each with what the one who signs wants to read in which section, and what not. Judgement and common practice, but
//! where a row names its source.

use super::shops::{answered, said, shop, typed_into};
use bellows::answer::compare;
use bellows::answer::report::{Grade as Mark, Sort};
use bellows::judge::grade::Grade;
use bellows::shop::Units;
use regex::Regex;

struct Row {
    /// What it is about, and its source.
    name: &'static str,
    units: Units,
    label: &'static str,
    typed: &'static [(&'static str, &'static str)],
    /// Section and what it says.
    says: &'static [(&'static str, &'static str)],
    /// Section and what it must not say.
    never: &'static [(&'static str, &'static str)],
}

const ROW: Row = Row {
    name: "",
    units: Units::Us,
    label: "",
    typed: &[],
    says: &[],
    never: &[],
};

const ROWS: &[Row] = &[
    Row {
        name: "no machine is looked for beyond the wire: 14 AWG copper takes 15 A (NEC 240.4(D))",
        label: "26 gal 5.1 CFM @ 90, 120V 14 A",
        typed: &[("places.0.breaker", "20 A"), ("places.0.branch_gauge", "14 AWG")],
        says: &[("look for", "at most 15 A"), ("plan", "15 A breaker")],
        never: &[("look for", "20 A"), ("plan", "works as is")],
        ..ROW
    },
    Row {
        name: "a breaker for a motor alone feeds no other machine: 10 AWG takes 30 A, a motor four fifths of it (NEC 430.22)",
        label: "80 gal 16 cfm @ 90, 240 V 22 A",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "60 A"),
            ("places.0.branch_gauge", "10 AWG"),
            ("places.0.outlet", "hard-wired"),
        ],
        says: &[("look for", "at most 24 A"), ("head", "overload")],
        never: &[("look for", "60 A")],
        ..ROW
    },
    Row {
        name: "where no cord is, no cord is blamed",
        label: "20 gal 4 cfm @ 90 120 V 12 A",
        typed: &[
            ("places.0.breaker", "15 A"),
            ("places.0.branch_gauge", "14 AWG"),
            ("places.0.branch_length", "150 ft"),
        ],
        says: &[
            ("head", "wire to that outlet is long"),
            ("head", "electrician|nearer the panel"),
        ],
        never: &[("head", "cord"), ("mend", "cord "), ("power", "cord")],
        ..ROW
    },
    Row {
        name: "what costs nothing comes before an electrician, in the plan too",
        label: "26 gal 5.2 cfm @ 90, 120/240 V 15/7.5 A",
        typed: &[
            ("places.0.breaker", "15 A"),
            ("places.0.other_load", "5 A"),
            ("places.0.spare_volts", "240 V"),
            ("places.0.spare_breaker", "20 A"),
        ],
        says: &[("head", "another breaker"), ("plan", "another breaker")],
        never: &[("plan", "electrician")],
        ..ROW
    },
    Row {
        name: "a cord that does is not bought again, and none heavier is asked for",
        label: "26 gal 4.6 cfm @ 90 120V 12 A",
        typed: &[
            ("places.0.breaker", "15 A"),
            ("places.0.cord_gauge", "14 AWG"),
            ("places.0.cord_length", "50 ft"),
        ],
        says: &[("power", "runs it")],
        never: &[("money", "cord"), ("look for", "heavier cord")],
        ..ROW
    },
    Row {
        name: "the set holds the circuit that the machine asks for",
        label: "60 gal 11.5 cfm @ 90, 240 V 15 A, $900",
        typed: &[("places.0.volts", "120 V")],
        says: &[("money", "20 A, 240 V circuit"), ("plan", "20 A, 240 V circuit")],
        ..ROW
    },
    Row {
        name: "a danger stops the plan too: a tank without a stamp (OSHA 1910.169)",
        label: "used 60 gal 10 cfm @ 90 240 V 15 A",
        typed: &[
            ("candidates.0.stamp", "no stamp"),
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "20 A"),
        ],
        says: &[
            ("head", "No stamp, no air"),
            ("plan", "not before the danger is put right"),
        ],
        never: &[("plan", "works as is")],
        ..ROW
    },
    Row {
        name: "spraying beside the motor stops the plan too (NFPA 33)",
        label: "60 gal 14 CFM @ 90 240V 20A",
        typed: &[
            ("tasks.9.on", "true"),
            ("tasks.9.sprayed", "beside the compressor"),
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "30 A"),
        ],
        says: &[("plan", "not before the danger is put right")],
        never: &[("plan", "works as is")],
        ..ROW
    },
    Row {
        name: "a machine that stays at home is judged there alone",
        label: "60 gal 13 cfm @ 90 240 V 16 A 320 lb",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "20 A"),
            ("places.1.name", "Hangar"),
            ("places.1.breaker", "20 A"),
            ("tasks.9.on", "true"),
        ],
        says: &[
            ("head", "stays home"),
            ("plan", "Hangar: it does not come here"),
            ("carry", "stays at “Garage”"),
        ],
        never: &[
            ("line", "Hangar"),
            ("paint", "Hangar"),
            ("water", "Hangar"),
            ("plan", "Hangar: works as is"),
        ],
        ..ROW
    },
    Row {
        name: "a machine that power and plan take along is not left behind by its weight",
        label: "26 gal 5.0 cfm @ 90 120V 15 A 135 lb",
        typed: &[
            ("places.1.name", "Hangar"),
            ("places.1.breaker", "20 A"),
            ("places.1.airplane", "never fueled"),
        ],
        says: &[("carry", "liftgate or hoist"), ("plan", "Hangar: works as is")],
        never: &[("carry", "stays at")],
        ..ROW
    },
    Row {
        name: "paint says what the odds say",
        units: Units::Metric,
        label: "100 l 3 kW 230 V 13 A 320 l/min FAD 10 bar",
        typed: &[
            ("tasks.9.on", "true"),
            ("tasks.9.gun", "HVLP"),
            ("places.0.outlet", "Schuko"),
        ],
        says: &[
            ("head", "thirstier one fades"),
            ("head", "of 10 shops like yours the gun fades"),
            ("paint", "thirstier one fades"),
            ("plan", "no thirsty gun"),
        ],
        never: &[
            ("paint", "Keeps up"),
            ("head", "wait when painting"),
            ("plan", "wait when painting"),
        ],
        ..ROW
    },
    Row {
        name: "a label whose flow is in question is planned with as little as it is judged",
        label: "26 gal 5.0 cfm @ 90 120V 15 A",
        typed: &[
            ("candidates.0.pump_up", "4 min"),
            ("candidates.0.pump_from", "0 psi"),
            ("candidates.0.pump_to", "125 psi"),
        ],
        says: &[("plan", "settle its air first")],
        never: &[("plan", "works as is")],
        ..ROW
    },
    Row {
        name: "metric readers get what their stores sell: 10 mm and 6 mm hose, whole meters, tanks in round liters, 11 bar tanks",
        units: Units::Metric,
        label: "24 l 100 l/min FAD @ 7 bar 1.1 kW 230 V 5 A",
        says: &[
            ("plan", "10 m of 10 mm"),
            ("plan", "6 mm whip"),
            ("look for", "150 L"),
            ("mend", "11 bar"),
        ],
        never: &[
            ("money", r"7\.6|9\.5"),
            ("plan", r"9\.5|6\.35|7\.6"),
            ("mend", r"10\.3|115 L tank"),
            ("power", r"12\.2 m"),
        ],
        ..ROW
    },
    Row {
        name: "a three-phase motor at a house outlet can't run (common practice)",
        label: "80 gal 18 cfm @ 90, 230 V 3 phase 14 A 5 hp",
        typed: &[("places.0.breaker", "30 A"), ("places.0.volts", "240 V")],
        says: &[
            ("head", "three-phase"),
            ("head", "single-phase motor|phase converter"),
        ],
        never: &[
            ("head", "hardly possible|runs it"),
            ("plan", "works as is"),
            ("power", "runs it"),
        ],
        ..ROW
    },
    Row {
        name: "a dryer's outlet wants a plug that no compressor comes with",
        label: "60 gal 14 CFM @ 90 PSI 240 V 22 A 5 HP 345 lb",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "30 A"),
            ("places.0.outlet", "14-30"),
            ("places.0.branch_gauge", "10 AWG"),
        ],
        says: &[("head", "14-30 cord and plug")],
        never: &[("head", "as is")],
        ..ROW
    },
    Row {
        name: "kilowatts of a metric plate are what the motor takes: 1.1 kW of 230 V times 5 A are no peak figure",
        units: Units::Metric,
        label: "24 l 100 l/min FAD @ 7 bar 1.1 kW 230 V 5 A",
        never: &[("label", "peak figure")],
        ..ROW
    },
    Row {
        name: "a machine that stays at home lights nothing in the hangar (NEC 513)",
        label: "60 gal 12 @ 90 240 V 15 A 300 lb",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "20 A"),
            ("places.1.name", "Hangar"),
            ("places.1.volts", "120 V"),
            ("places.1.airplane", "fueled"),
            ("places.1.temperature", "10 F"),
        ],
        says: &[("head", "stays home")],
        never: &[
            ("head", "Where does the compressor stand"),
            ("danger", "fueled"),
            ("cold", "Hangar"),
        ],
        ..ROW
    },
    Row {
        name: "a pipe that nobody knows can't be called sound",
        label: "20 gal 5 CFM @ 90 14 A",
        typed: &[("line.pipe", "the grey stuff")],
        says: &[("head", "Can’t say yet.*pipe"), ("plan", "first settle")],
        never: &[("head", "Does the job"), ("plan", "works as is")],
        ..ROW
    },
    Row {
        name: "a generator of which nobody said where it stands: carbon monoxide, whatever else is said (judgement; CPSC: 20 ft from doors)",
        label: "6 gal 2.6 cfm @ 90 psi 120V 10A",
        typed: &[("places.0.generator", "3 kVA")],
        says: &[
            ("head", "carbon monoxide"),
            ("head", "20 ft"),
            ("power", "carbon monoxide"),
        ],
        ..ROW
    },
    Row {
        name: "a generator that stands outdoors is not warned of again",
        label: "20 gal 4.0 cfm @ 90 psi 120V 13A",
        typed: &[
            ("places.0.generator", "7 kVA"),
            ("places.0.generator_stands", "outdoors, 30 ft from doors"),
        ],
        never: &[("head", "carbon monoxide")],
        ..ROW
    },
    Row {
        name: "a motor that starts too often is in the plan, and the second tank that cures it is offered (judgement)",
        units: Units::Metric,
        label: "50 l 9.6 A 230 V 200 l/min FAD at 7 bar",
        typed: &[("places.0.outlet", "BS 1363")],
        says: &[
            ("head", "starts too often"),
            ("plan", "second tank"),
            ("mend", "second tank of 50 L"),
            ("power", "9.6 A of 13 A"),
        ],
        never: &[("plan", "works as is"), ("power", "of 32 A")],
        ..ROW
    },
    Row {
        name: "the same at 240 V, 13 cfm on 10 gal",
        label: "10 gal 13 cfm @ 90, 240 V 22 A, 250 lb",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "30 A"),
            ("places.0.branch_gauge", "10 AWG"),
        ],
        says: &[("head", "starts too often"), ("mend", "second tank")],
        never: &[("plan", "works as is")],
        ..ROW
    },
    Row {
        name: "14 cfm is sold on 60 gal, not on 10 (judgement)",
        label: "30 gal 5.3 CFM @ 90 15 A 120V",
        typed: &[("tasks.9.on", "true"), ("tasks.9.gun", "HVLP")],
        says: &[("look for", "60 gal|80 gal"), ("head", "paint")],
        never: &[
            ("look for", "tank of at least [1-4]?[0-9] gal"),
            ("head", "on a 10 gal"),
        ],
        ..ROW
    },
    Row {
        name: "a fix of the drilling leaves the coat, so it is none (judgement)",
        label: "6 gal 2.6 cfm @ 90, 120 V 12 A, 30 lb",
        typed: &[
            ("places.0.cord_length", "100 ft"),
            ("places.0.altitude", "5,000 ft"),
            ("tasks.8.on", "true"),
        ],
        never: &[("mend", "then it does the job"), ("mend", "cordless drill")],
        ..ROW
    },
    Row {
        name: "for two drillers a hose alone does not do it, so it is not called the limit (judgement)",
        label: "26 gal 5.0 cfm @ 90 120V 15 A",
        typed: &[("tasks.0.people", "2")],
        says: &[("head", "Too small for drilling")],
        never: &[
            ("head", "hose is the limit"),
            ("line", "is the limit, not the compressor"),
        ],
        ..ROW
    },
    Row {
        name: "a flow alone tells nothing of the power: neither volts nor amps nor power are known (judgement)",
        label: "60 gal 18 cfm @ 90",
        says: &[("power", "Can’t say yet"), ("power", "amps on the motor’s plate")],
        never: &[
            ("power", r"\d+ to \d+ A|runs it"),
            ("head", "can't run it|Draws about"),
            ("plan", "circuit"),
        ],
        ..ROW
    },
    Row {
        name: "with volts a guess is told as one, and asks (judgement)",
        label: "20 gal 4 cfm @ 90 120 V",
        says: &[
            ("power", r"Can’t say yet.*about \d+ to \d+ A"),
            ("plan", "read the amps on the motor’s plate"),
        ],
        never: &[("power", "runs it|it runs"), ("head", "can't run it")],
        ..ROW
    },
    Row {
        name: "a guessed current condemns no cord (judgement)",
        label: "20 gal 5 cfm @ 90 120 V",
        typed: &[
            ("places.0.breaker", "20 A"),
            ("places.0.cord_gauge", "18 AWG"),
            ("places.0.cord_length", "50 ft"),
        ],
        never: &[
            ("power", "made for|overheats|printed on the jacket"),
            ("head", "can't run it"),
        ],
        ..ROW
    },
    Row {
        name: "a circuit is sized by the plate, not by a guess (NEC 430.6(A), from memory)",
        label: "60 gal 11.5 cfm @ 90, 240 V, 300 lb",
        typed: &[("places.0.volts", "120 V")],
        says: &[("head", "240 V"), ("mend", "sized by the motor’s plate")],
        never: &[("head", r"\d+ A, 240 V"), ("mend", r"\d+ A, 240 V")],
        ..ROW
    },
    Row {
        name: "a suction is told as it is printed",
        units: Units::Metric,
        label: "50 L, 1,5 kW, 230 V, 206 l/min Ansaugleistung, 8 bar, 26 kg, 97 dB LWA",
        says: &[("head", "206 L/min is suction")],
        never: &[("head", "205")],
        ..ROW
    },
    Row {
        name: "plan, fixes and what to do next begin alike, and a motor that starts hard is told of reset, unloader and check valve (judgement)",
        label: "26 gal 5.3 cfm @ 90 120 V 15 A",
        typed: &[
            ("places.0.cord_gauge", "12 AWG"),
            ("places.0.cord_length", "75 ft"),
        ],
        says: &[
            ("head", "shorter cord"),
            ("plan", "^Garage: use a shorter cord"),
            ("mend", "^Use a shorter cord"),
            ("power", "thermal reset"),
            ("power", "unloader"),
            ("power", "check valve"),
        ],
        ..ROW
    },
    Row {
        name: "what to look for is what the generator starts easily: three times running (judgement)",
        label: "6 gal 2.6 cfm @ 90 12 A 120 V",
        typed: &[
            ("places.0.generator", "2.2 kVA"),
            ("places.0.generator_stands", "outdoors, 25 ft from doors"),
        ],
        says: &[("look for", "wants a larger generator")],
        never: &[("look for", "at most 15 A")],
        ..ROW
    },
    Row {
        name: "what a 120 V outlet does not feed is not looked for on one: 15 A at 120 V make some 6 cfm at the best (judgement)",
        label: "20 gal 5.0 cfm @ 90 120 V 14 A",
        typed: &[("tasks.6.on", "true")],
        says: &[
            ("look for", "12 cfm"),
            ("look for", "which wants a 240 V circuit"),
        ],
        never: &[("look for", "at 120 V")],
        ..ROW
    },
    Row {
        name: "a breaker that its wire may have needs no excuse: 10 AWG takes 30 A (NEC 240.4(D))",
        label: "80 gal 17 cfm @ 90 240 V 23 A 5 hp",
        typed: &[
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "30 A"),
            ("places.0.branch_gauge", "10 AWG"),
            ("places.0.outlet", "hard-wired"),
        ],
        says: &[("power", "The circuit runs it")],
        never: &[("power", "larger than the wire"), ("power", "outlet runs it")],
        ..ROW
    },
    Row {
        name: "three phases at the place run a motor for three (common practice)",
        label: "80 gal 18 cfm @ 90, 230 V 3 phase 14 A",
        typed: &[
            ("places.0.volts", "240 V 3 phase"),
            ("places.0.breaker", "30 A"),
            ("places.0.outlet", "hard-wired"),
        ],
        says: &[("power", "runs it")],
        never: &[("head", "three-phase"), ("power", "phase converter")],
        ..ROW
    },
    Row {
        name: "a breaker that others fill holds, with nothing to spare (UL 489 holds 100 %)",
        label: "20 gal 4.0 cfm @ 90 120 V 12 A",
        typed: &[("places.0.other_load", "3 A"), ("places.0.breaker", "15 A")],
        says: &[("power", "With the other 3 A that is 15 A on a 15 A breaker")],
        never: &[("power", "trip")],
        ..ROW
    },
    Row {
        name: "a flow that is asked about holds no coat (judgement)",
        label: "80 gal 23 CFM @ 90, 12 cfm @ 175 PSI two-stage 240 V 28 A 7.5 hp",
        typed: &[
            ("tasks.9.on", "true"),
            ("tasks.9.gun", "HVLP"),
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "40 A"),
            ("places.0.outlet", "hard-wired"),
        ],
        says: &[("head", "contradict"), ("paint", "Can’t say yet whether")],
        never: &[("paint", "Keeps up|It holds")],
        ..ROW
    },
    Row {
        name: "one figure for what paints: that of what to look for (judgement)",
        label: "20 gal 5.0 cfm @ 90 120V 14 A",
        typed: &[("tasks.9.on", "true"), ("tasks.9.gun", "LVLP")],
        says: &[("paint", "Borrow or rent a compressor")],
        never: &[("paint", "cfm or more")],
        ..ROW
    },
    Row {
        name: "a second tank that is there stays part of what to look for (judgement)",
        label: "8 gal 3.0 cfm @ 90 11 A",
        typed: &[("auxiliary.tank", "30 gal"), ("auxiliary.rated", "150 psi")],
        says: &[("head", "beside the second one")],
        ..ROW
    },
    Row {
        name: "no store sells half a cfm on 8 gal (judgement)",
        label: "3 gal 1.0 cfm @ 90 120 V 6 A 20 lb",
        typed: &[
            ("tasks.0.on", "false"),
            ("tasks.1.on", "false"),
            ("tasks.2.on", "false"),
            ("tasks.3.on", "false"),
            ("tasks.10.on", "true"),
        ],
        says: &[("head", "Does the job"), ("look for", "1 cfm")],
        never: &[("look for", r"0\.5 cfm")],
        ..ROW
    },
    Row {
        name: "a flow at 40 psi is said to be one, whatever leads (common practice)",
        label: "11 gal 6.8 cfm @ 40 psi 120 V 13 A",
        says: &[("head", "6.8 cfm is at 40 psi")],
        ..ROW
    },
    Row {
        name: "a tank that nobody told starts no motor too often (judgement)",
        label: "5.0 cfm @ 90 120 V 14 A",
        never: &[
            ("head", "too often"),
            ("plan", "too often"),
            ("mend", "too often"),
        ],
        ..ROW
    },
    Row {
        name: "an overloaded cord is changed first, whoever says it (NEC 400.5(A)(1))",
        label: "20 gal 4 cfm @ 90 12 A 120 V",
        typed: &[
            ("places.0.cord_gauge", "18 AWG"),
            ("places.0.cord_length", "25 ft"),
        ],
        says: &[
            ("head", "14-gauge cord"),
            ("plan", "^Garage: use a 14-gauge cord"),
        ],
        ..ROW
    },
    Row {
        name: "no circuit is planned by a guess (judgement)",
        units: Units::Metric,
        label: "100 l 230 V 330 l/min FAD",
        typed: &[("places.0.outlet", "BS 1363")],
        says: &[("plan", "read the amps on the motor’s plate")],
        never: &[("plan", "circuit")],
        ..ROW
    },
    Row {
        name: "where the hose alone is the limit, plan and fixes say hose (judgement)",
        label: "60 gal 11.5 cfm @ 90 240 V 15 A",
        typed: &[
            ("line.trunk_bore", "1/4 in"),
            ("line.trunk_length", "50 ft"),
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "20 A"),
        ],
        says: &[
            ("head", "hose is the limit"),
            ("plan", "use 3/8 in hose"),
            ("mend", "^Use a 3/8 in main hose"),
        ],
        never: &[("plan", "too small")],
        ..ROW
    },
    Row {
        name: "a tank that is kept off is no part of what to look for (OSHA 1910.169)",
        label: "8 gal 3.0 cfm @ 90 11 A 120 V",
        typed: &[("auxiliary.tank", "20 gal"), ("auxiliary.condition", "used")],
        never: &[("head", "beside the second")],
        ..ROW
    },
    Row {
        name: "a flow that can't be starts no motor (judgement)",
        label: "8 gal 8 cfm @ 90 120 V 11 A",
        says: &[("plan", "settle its air first")],
        never: &[("plan", "starts too often"), ("head", "too often")],
        ..ROW
    },
    Row {
        name: "what to look for says which job it leaves out",
        label: "60 gal 11.5 cfm @ 90 240 V 15 A",
        typed: &[
            ("tasks.0.people", "3"),
            ("places.0.volts", "240 V"),
            ("places.0.breaker", "20 A"),
        ],
        says: &[("look for", "with drilling left out")],
        ..ROW
    },
    Row {
        name: "flow and tank are looked for as they are sold together: 1 cfm is not sold on 25 gal (judgement)",
        label: "6 gal 2.6 CFM @ 90 120 V 12 A oil-free",
        typed: &[
            ("tasks.8.on", "true"),
            ("tasks.0.on", "false"),
            ("tasks.1.on", "false"),
        ],
        says: &[("head", "Does the job")],
        never: &[("look for", r"\b1 cfm.*(20|25|30) gal")],
        ..ROW
    },
    Row {
        name: "a 16 A outlet behind 32 A gets the breaker that it is made for (IEC 60884-1, from memory)",
        units: Units::Metric,
        label: "24 l 100 l/min FAD @ 7 bar 1.1 kW 230 V 5 A",
        typed: &[("places.0.outlet", "Schuko"), ("places.0.breaker", "32 A")],
        says: &[("plan", "put in a 16 A breaker")],
        never: &[("plan", "10 A breaker")],
        ..ROW
    },
    Row {
        name: "humid air: drain it every day, trap at the bench end (rule of thumb)",
        label: "20 gal 5 @ 90, 14 A",
        typed: &[("places.0.temperature", "90 F"), ("places.0.humidity", "80 %")],
        says: &[("head", "Drain it every day")],
        ..ROW
    },
];

/// What is wrong with the answer to a row.
fn faults(row: &Row) -> Vec<String> {
    let report = answered(&shop(row.units, row.label, row.typed));
    let has = |(id, pattern): &(&str, &str)| {
        Regex::new(&format!("(?is){pattern}"))
            .unwrap()
            .is_match(&said(&report, id))
    };
    let lacking = row.says.iter().filter(|wanted| !has(wanted));
    let lacking =
        lacking.map(|(id, pattern)| format!("{id} does not say /{pattern}/: {}", said(&report, id)));
    let wrong = row.never.iter().filter(|unwanted| has(unwanted));
    lacking
        .chain(wrong.map(|(id, pattern)| format!("{id} says /{pattern}/: {}", said(&report, id))))
        .collect()
}

/// What rests on a guess has no green mark, whatever it suits: judgement.
#[test]
fn a_guessed_current_is_never_marked_good() {
    for (units, label) in [
        (Units::Us, "20 gal 4 cfm @ 90"),
        (Units::Us, "20 gal 4 cfm @ 90 120 V"),
        (Units::Us, "20 gal 4 cfm @ 90 120 V 1 hp"),
        (Units::Metric, "50 l 160 l/min FAD @ 7 bar 1.1 kW 230 V"),
    ] {
        let report = answered(&shop(units, label, &[]));
        let section = report
            .sections
            .iter()
            .find(|section| section.id == "power")
            .unwrap();
        let marks = [report.power.grade, report.places[0].circuit.grade, section.grade];
        assert!(
            marks.iter().all(|mark| *mark != Mark::Good),
            "{label}: {marks:?}, {}",
            report.power.sentence
        );
    }
}

/// Timed runs that are asked about are not good beside it: judgement.
#[test]
fn a_doubted_timing_is_not_called_good() {
    let typed = [
        ("candidates.0.pump_up", "4 min"),
        ("candidates.0.pump_from", "0 psi"),
        ("candidates.0.pump_to", "125 psi"),
    ];
    let report = answered(&shop(Units::Us, "26 gal 5.0 cfm @ 90 120V 15 A", &typed));
    assert_eq!(report.air.standing, Grade::Ask, "{}", report.air.sentence);
    let sections = report.sections.iter().filter(|section| section.id == "label");
    let findings = sections.flat_map(|section| &section.findings);
    let marks: Vec<Mark> = findings
        .filter(|finding| finding.id == "measured")
        .map(|finding| finding.grade)
        .collect();
    assert_eq!(marks, [Mark::Unsure]);
}

/// A machine that waits does not work "as is" in the comparison: judgement.
#[test]
fn a_comparison_says_works_as_is_of_none_that_waits() {
    let mut shop = shop(Units::Us, "20 gal 4.0 cfm @ 90 120V 14 A 125 lb", &[]);
    let other = typed_into(
        &shop,
        &[("candidates.0.tank", "60 gal"), ("candidates.0.flow", "6 cfm")],
    );
    shop.candidates.extend(other.candidates);
    let compared = compare(&shop, Sort::default());
    for row in &compared.rows {
        let cells: Vec<&str> = row.cells.iter().map(|cell| &*cell.value).collect();
        let waits = row.answer.standing == Grade::Wait;
        let good = row.answer.standing == Grade::Good;
        assert!(good || !cells.contains(&"Works as is"), "{cells:?}");
        assert!(
            !waits || cells.iter().any(|cell| cell.contains("with waits when drilling")),
            "{cells:?}"
        );
    }
    assert!(compared.rows.iter().any(|row| row.answer.standing == Grade::Wait));
}

#[test]
fn labels_are_answered_so_that_a_tradesman_signs() {
    let mut failed = Vec::new();
    for row in ROWS {
        let faults = faults(row);
        if !faults.is_empty() {
            failed.push(format!("{}:\n    {}", row.name, faults.join("\n    ")));
        }
    }
    assert!(
        failed.is_empty(),
        "{} of {} fail:\n{}",
        failed.len(),
        ROWS.len(),
        failed.join("\n")
    );
}
