//! The levels at a place, each with its sum.

use super::{BOX_DB, Ears, INLET_SHARE, NEAREST_M, garage, level};
use crate::answer::sums;
use crate::quantity::{Kind, figure, number};
use crate::report::{Figure, Sum};
use crate::shop::Units;

type Known = (&'static str, String);

impl Ears<'_> {
    fn metres(&self, metres: f64) -> String {
        self.words.of(Kind::Length, metres)
    }

    fn decibels(&self, db: f64) -> String {
        self.words.of(Kind::LevelLoss, db)
    }

    /// The level stated, the box, and the distance.
    fn stated(&self, metres: f64) -> Vec<Known> {
        let (level_db, at_m) = self.stated;
        vec![
            ("L₁, stated or taken", self.words.of(Kind::SoundLevel, level_db)),
            ("r₁, where", self.metres(at_m)),
            ("r, from here", self.metres(metres.max(NEAREST_M))),
            (
                "b, box",
                self.decibels(if self.place.boxed { BOX_DB } else { 0.0 }),
            ),
        ]
    }

    fn ducted(&self, ducted: bool) -> Known {
        let share = if ducted { INLET_SHARE } else { 0.0 };
        (
            "x, share that the ducted inlet takes out",
            self.words.share(share),
        )
    }

    fn open(&self) -> Option<Sum> {
        let stated = self.stated(self.place.listener_m.value);
        sums::OPEN_AIR.with(stated.into_iter().chain([self.ducted(self.place.inlet_ducted)]))
    }

    fn room(&self, ducted: bool) -> Option<Sum> {
        let room = garage();
        let surface = match self.words.units {
            Units::Us => format!("{} ft²", number(room.surface_m2 / 0.3048 / 0.3048, 0)),
            Units::Metric => format!("{} m²", number(room.surface_m2, 0)),
        };
        let own = [
            self.ducted(ducted),
            ("S, walls, floor and ceiling", surface),
            ("α, what they swallow, bare", figure(room.absorption)),
        ];
        sums::IN_ROOM.with(self.stated(self.place.listener_m.value).into_iter().chain(own))
    }

    fn far(&self) -> Option<Sum> {
        let stated = self.stated(self.place.neighbour_m?);
        let wall = ("w, what walls take", self.decibels(self.place.wall_loss_db.value));
        if self.place.inlet_ducted {
            sums::NEIGHBOUR_DUCTED.with(stated.into_iter().chain([wall, self.ducted(true)]))
        } else {
            sums::NEIGHBOUR.with(stated.into_iter().chain([wall]))
        }
    }

    pub(super) fn figures(&self) -> Vec<Figure> {
        let (words, levels, place) = (self.words, self.levels, self.place);
        let named =
            |what: &str, db: f64, sum| sums::figure(format!("{}: {what}", place.name), level(words, db), sum);
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
