//! The levels at a place, each with its sum.

use super::{BOX_DB, Ears, INLET_SHARE, NEAREST_M, garage, level};
use crate::report::{Figure, Sum};
use crate::sums::{self, PutIn};
use quantity::{Kind, M_PER_FT, number};
use shop::Units;

const DUCTED: &str = "x, share that the ducted inlet takes out";

impl Ears<'_> {
    /// The level stated, the box, and the distance.
    fn stated(&self, metres: f64) -> PutIn {
        let (level_db, at_m) = self.stated;
        let mut put_in = PutIn::new(self.words);
        put_in
            .of("L₁, stated or taken", Kind::SoundLevel, level_db)
            .of("r₁, where", Kind::Length, at_m)
            .of("r, from here", Kind::Length, metres.max(NEAREST_M))
            .of(
                "b, box",
                Kind::LevelLoss,
                if self.place.boxed { BOX_DB } else { 0.0 },
            );
        put_in
    }

    fn open(&self) -> Option<Sum> {
        let mut put_in = self.stated(self.place.listener_m.value);
        put_in.percent(DUCTED, if self.place.inlet_ducted { INLET_SHARE } else { 0.0 });
        sums::OPEN_AIR.with(&mut put_in)
    }

    fn room(&self, ducted: bool) -> Option<Sum> {
        let room = garage();
        let surface = match self.words.units {
            Units::Us => format!("{} ft²", number(room.surface_m2 / M_PER_FT / M_PER_FT, 0)),
            Units::Metric => format!("{} m²", number(room.surface_m2, 0)),
        };
        let mut put_in = self.stated(self.place.listener_m.value);
        put_in
            .percent(DUCTED, if ducted { INLET_SHARE } else { 0.0 })
            .text("S, walls, floor and ceiling", surface)
            .number("α, what they swallow, bare", room.absorption);
        sums::IN_ROOM.with(&mut put_in)
    }

    fn far(&self) -> Option<Sum> {
        let mut put_in = self.stated(self.place.neighbour_m?);
        put_in.of(
            "w, what walls take",
            Kind::LevelLoss,
            self.place.wall_loss_db.value,
        );
        if self.place.inlet_ducted {
            put_in.percent(DUCTED, INLET_SHARE);
            return sums::NEIGHBOUR_DUCTED.with(&mut put_in);
        }
        sums::NEIGHBOUR.with(&mut put_in)
    }

    pub(super) fn figures(&self) -> Vec<Figure> {
        let (words, levels, place) = (self.words, self.levels, self.place);
        let named = |what: &str, db: f64, sum| {
            sums::figure(&format!("{}: {what}", place.name), level(words, db), sum)
        };
        let mut figures = vec![
            named("at the ears, as in the open", levels.open, self.open()),
            named(
                "at the ears, in a bare two-car garage",
                levels.room,
                self.room(place.inlet_ducted),
            ),
        ];
        if !place.inlet_ducted {
            figures.push(named(
                "the same, inlet ducted outdoors",
                levels.room_ducted,
                self.room(true),
            ));
        }
        figures.extend(
            levels
                .neighbour
                .map(|db| named("at the neighbour's", db, self.far())),
        );
        figures
    }
}
