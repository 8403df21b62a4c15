//! All that the page can call: one [`Session`], whole values in and out. A refusal is thrown as `{ field, message }`.
//!
//! The page has one, which owns the shop, its fields and local storage. Its worker has another, which is told the shop by its
//! text and only judges, a part at a time, so that a newer question is never kept waiting for long.

use std::fmt::Display;

use answer::report::{Sort, View};
use judge::basis::Basis;
use quantity::Kind;
use quantity::field::page::{FieldTable, bare_unit};
use serde::Serialize;
use serde_json::Value;
use serde_wasm_bindgen::Serializer;
use shop::catalogue::CATALOGUE;
use shop::change::{Change, Fault};
use shop::record::{self, Record};
use shop::{Shop, TaskKind, Units, word};
use shop::{bundle, edit, file, link, qr, questions};
use tsify::Tsify;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::bench::{Bench, Origin, Row, Source};
use super::browser::LocalStorage;
use super::draft::{self, Found};
use super::label;
use super::store::{self, StoreError};
use super::taking::{self, OnClash, Step};

type Answer = Result<JsValue, JsValue>;

/// Runs as the module loads: a panic is a defect, and the console gets its text.
#[wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
}

/// Plain objects, as the page's own are.
fn hand<T: Serialize + ?Sized>(value: &T) -> Answer {
    Ok(value.serialize(&Serializer::json_compatible())?)
}

fn refusal(field: &str, error: &impl Display) -> JsValue {
    let fault = Fault {
        field: field.into(),
        message: error.to_string(),
    };
    hand(&fault).unwrap_or_else(|failed| failed)
}

/// What the page hands over, by way of its JSON text: the core reads JSON anyway.
fn take(what: &str, value: &JsValue) -> Result<Value, JsValue> {
    let text = js_sys::JSON::stringify(value)
        .map(String::from)
        .map_err(|_| refusal(what, &"it is no value that can be read"))?;
    file::parsed(&text).map_err(|error| refusal(what, &error))
}

/// Records that the page hands over.
fn take_list<T: Record + Default>(what: &str, value: &JsValue) -> Result<Vec<T>, JsValue> {
    record::list(&take(what, value)?, what).map_err(|error| refusal(what, &error))
}

/// A shop that the page hands over.
fn take_shop(value: &JsValue) -> Result<Shop, JsValue> {
    let tree = take("shop", value)?;
    file::in_tree(&tree).map_err(|error| refusal("shop", &error))
}

/// Shops that the page hands over.
fn take_shops(value: &JsValue) -> Result<Vec<Shop>, JsValue> {
    take_list("shops", value)
}

/// Pairs of index and choice.
fn decided(tree: &Value) -> Option<Vec<(usize, OnClash)>> {
    let pair = |pair: &Value| Some((pair[0].as_u64()? as usize, word::named(pair[1].as_str()?)?));
    tree.as_array()?.iter().map(pair).collect()
}

fn told<T>(result: Result<T, StoreError>) -> Result<T, JsValue> {
    result.map_err(|error| refusal("storage", &error))
}

fn row(list: &str) -> Result<Row, JsValue> {
    word::named(list).ok_or_else(|| refusal("list", &"the shop has no such list"))
}

/// What can be told of the fields at once, before anything is judged.
#[derive(Serialize, Tsify)]
pub struct FieldNotes {
    /// Fields that could not be taken.
    pub faults: Vec<Fault>,
    /// For blank fields, what is assumed.
    pub taken: Vec<Change>,
}

/// A kind of task, as a form offers it.
#[derive(Serialize, Tsify)]
pub struct TaskChoice {
    /// Its word.
    pub kind: TaskKind,
    /// What it is called.
    pub name: &'static str,
    /// Its tool takes air by the stroke.
    pub by_stroke: bool,
}

/// All that a form has to know of the fields.
#[derive(Serialize, Tsify)]
pub struct Forms {
    /// Every field and list.
    pub table: FieldTable,
    /// Every kind of task.
    pub tasks: Vec<TaskChoice>,
    /// The unit of a bare number where a tool takes air by the stroke.
    pub stroke_unit: &'static str,
}

/// What a visit begins with.
#[derive(Serialize, Tsify)]
pub struct Begun {
    /// The window that wrote the draft; blank where there was none.
    pub window: String,
    /// What went wrong, as a sentence; blank where nothing did.
    pub message: String,
}

/// One part of the answer, as it comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    Whole,
    Choice,
    Subjects,
    Doubt,
    Map,
    Done,
}

impl Stage {
    fn next(self) -> Self {
        match self {
            Self::Whole => Self::Choice,
            Self::Choice => Self::Subjects,
            Self::Subjects => Self::Doubt,
            Self::Doubt => Self::Map,
            Self::Map | Self::Done => Self::Done,
        }
    }
}

/// The shop and its answer.
#[wasm_bindgen]
pub struct Session {
    bench: Bench,
    memory: answer::Memory,
    view: View,
    stage: Stage,
    sort: Sort,
}

#[wasm_bindgen]
impl Session {
    /// Of a blank shop.
    #[wasm_bindgen(constructor)]
    #[expect(clippy::new_without_default, reason = "JavaScript has no default")]
    pub fn new() -> Self {
        Self {
            bench: Bench::start(Shop::fresh(), Origin::default()),
            memory: answer::Memory::default(),
            view: View::default(),
            stage: Stage::Done,
            sort: Sort::default(),
        }
    }

    // ---- what is open ----

    /// The open shop.
    #[wasm_bindgen(unchecked_return_type = "Shop")]
    pub fn shop(&self) -> Answer {
        hand(self.bench.shop())
    }

    /// Where it came from.
    #[wasm_bindgen(unchecked_return_type = "Origin")]
    pub fn origin(&self) -> Answer {
        hand(self.bench.origin())
    }

    /// Its file, by which a worker is told it.
    pub fn text(&self) -> String {
        file::to_json(self.bench.shop())
    }

    /// Its link: the fragment of an address.
    pub fn link(&self) -> String {
        link::write(self.bench.shop())
    }

    /// Names, units, limits and lists of all fields, in the shop's units.
    #[wasm_bindgen(unchecked_return_type = "Forms")]
    pub fn forms(&self) -> Answer {
        let units = self.bench.shop().units;
        let tasks = CATALOGUE.iter().map(|entry| TaskChoice {
            kind: entry.kind,
            name: entry.name,
            by_stroke: entry.kind.by_stroke(),
        });
        hand(&Forms {
            table: FieldTable::of(units),
            tasks: tasks.collect(),
            stroke_unit: bare_unit(Kind::StrokeVolume, units),
        })
    }

    /// What can be told of the fields at once.
    #[wasm_bindgen(unchecked_return_type = "FieldNotes")]
    pub fn notes(&self) -> Answer {
        let basis = Basis::of(self.bench.shop());
        hand(&FieldNotes {
            faults: basis.faults.iter().map(judge::basis::Refusal::fault).collect(),
            taken: basis.taken,
        })
    }

    /// Opens what an earlier visit left: its draft, or the shop that was open last, or a blank one in the units of a
    /// language.
    #[wasm_bindgen(unchecked_return_type = "Begun")]
    pub fn begin(&mut self, language: &str) -> Answer {
        let units = store::chosen_units(&LocalStorage).unwrap_or_else(|| store::usual_units(language));
        let mut message = String::new();
        match draft::find(&LocalStorage) {
            Found::Bench(bench, window, message) => {
                self.bench = *bench;
                self.follow_kept();
                return hand(&Begun { window, message });
            }
            Found::Unreadable(why) => message = why,
            Found::Nothing => {}
        }
        self.bench = Bench::start(Shop::fresh_in(units), Origin::default());
        if let Some(name) = store::stored(&LocalStorage).current {
            match store::fetch(&LocalStorage, &name) {
                Ok(shop) => self.bench = Bench::start(in_chosen(shop), of_store(&name)),
                Err(why) => message = why.to_string(),
            }
        }
        let window = String::new();
        hand(&Begun { window, message })
    }

    /// A kept shop goes by what is kept: another window may have changed it since.
    fn follow_kept(&mut self) {
        let Origin { kind, name, .. } = self.bench.origin();
        if *kind != Source::Stored {
            return;
        }
        match store::fetch(&LocalStorage, name) {
            Ok(shop) => self.bench.replace(shop),
            Err(_) => self.bench.set_origin(Origin {
                kind: Source::Loose,
                ..Origin::default()
            }),
        }
    }

    /// Keeps the draft, and the shop under its name where it has one.
    pub fn save(&self, window: &str) -> Result<(), JsValue> {
        draft::keep(&LocalStorage, &self.bench, window)
            .map_err(|refused| refusal("storage", &StoreError::from(refused)))?;
        if self.bench.origin().kind == Source::Stored {
            let shop = Shop {
                name: self.bench.origin().name.clone(),
                ..self.bench.shop().clone()
            };
            told(store::keep(&LocalStorage, &shop))?;
        }
        Ok(())
    }

    /// Keeps what can be undone.
    pub fn save_acts(&self) -> Result<(), JsValue> {
        draft::keep_acts(&LocalStorage, &self.bench)
            .map_err(|refused| refusal("storage", &StoreError::from(refused)))
    }

    // ---- changes ----

    /// Puts a text into a field.
    pub fn set(&mut self, field: &str, text: &str) -> Result<(), JsValue> {
        self.bench
            .set(field, text)
            .map_err(|error| refusal(field, &error))
    }

    /// Puts texts into fields as one act, which can be undone.
    pub fn apply(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "Change[]")] changes: JsValue,
        what: &str,
    ) -> Result<(), JsValue> {
        let changes: Vec<Change> = take_list("changes", &changes)?;
        self.bench
            .apply(&changes, what)
            .map_err(|error| refusal("changes", &error))
    }

    /// Reads a whole label into the chosen machine, as one act.
    #[wasm_bindgen(unchecked_return_type = "LabelRead")]
    pub fn read_label(&mut self, text: &str) -> Answer {
        let shop = self.bench.shop();
        let (told, changes) = label::read(text, shop.units, shop.chosen);
        self.bench
            .apply(&changes, "The label was read into the boxes.")
            .map_err(|error| refusal("label", &error))?;
        hand(&told)
    }

    /// Adds a machine, a place or a task and returns its index.
    pub fn add(&mut self, list: &str, kind: Option<String>) -> Result<usize, JsValue> {
        let kind: Option<TaskKind> = kind.and_then(|kind| word::named(&kind));
        self.bench
            .add(row(list)?, kind)
            .map_err(|error| refusal(list, &error))
    }

    /// Takes one out; `what` says so.
    pub fn remove(&mut self, list: &str, index: usize, what: &str) -> Result<(), JsValue> {
        self.bench
            .remove(row(list)?, index, what)
            .map_err(|error| refusal(list, &error))
    }

    /// Makes a machine the one that the answer is about.
    pub fn choose(&mut self, index: usize) {
        self.bench.choose(index);
    }

    /// What would be undone next; null where nothing is.
    #[wasm_bindgen(unchecked_return_type = "Undoable | null")]
    pub fn undoable(&self) -> Answer {
        hand(&self.bench.undoable())
    }

    /// Undoes the last act and says what it was; null where there is none.
    #[wasm_bindgen(unchecked_return_type = "string | null")]
    pub fn undo(&mut self) -> Answer {
        let done = self.bench.undo().map_err(|error| refusal("undo", &error))?;
        hand(&done)
    }

    /// The four questions, as they stand.
    #[wasm_bindgen(unchecked_return_type = "Sheet[]")]
    pub fn questions(&self) -> Answer {
        hand(&questions::sheets(self.bench.shop()))
    }

    /// Gives an answer to one of them.
    pub fn answer_question(&mut self, question: &str, choice: &str) -> Result<(), JsValue> {
        let shop = questions::answered(self.bench.shop(), question, choice)
            .ok_or_else(|| refusal(question, &"there is no such answer"))?;
        self.bench.replace(shop);
        Ok(())
    }

    /// Changes the units of answers and bare numbers, for this shop and those to come.
    pub fn choose_units(&mut self, units: &str) -> Result<(), JsValue> {
        let units: Units = word::named(units).ok_or_else(|| refusal("units", &"there are no such units"))?;
        self.bench.replace(edit::in_units(self.bench.shop(), units));
        told(store::choose_units(&LocalStorage, units))
    }

    // ---- opening ----

    /// Opens a blank shop, in the units of this reader.
    pub fn open_fresh(&mut self, language: &str, what: &str) {
        let units = units_of(language);
        self.bench.open(Shop::fresh_in(units), Origin::default(), what);
    }

    /// Opens the invented example.
    pub fn open_example(&mut self, language: &str, what: &str) {
        let shop = edit::in_units(&Shop::demo(), units_of(language));
        let kind = Source::Example;
        self.bench.open(
            shop,
            Origin {
                kind,
                ..Origin::default()
            },
            what,
        );
    }

    /// Opens the shop in a link, wherever in a text it stands. What was sent stays known.
    pub fn open_link(&mut self, text: &str, what: &str) -> Result<(), JsValue> {
        let shop = link::read(text).map_err(|error| refusal("link", &error))?;
        self.open_sent(shop, Source::Link, what);
        Ok(())
    }

    /// Opens a shop from a file's text, one of [`Self::shops_in`].
    pub fn open_file(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "Shop")] shop: JsValue,
        what: &str,
    ) -> Result<(), JsValue> {
        let shop = take_shop(&shop)?;
        self.open_sent(shop, Source::File, what);
        Ok(())
    }

    fn open_sent(&mut self, shop: Shop, kind: Source, what: &str) {
        let sent = link::write(&shop);
        let origin = Origin {
            kind,
            sent,
            ..Origin::default()
        };
        self.bench.open(in_chosen(shop), origin, what);
    }

    /// The fragment of an address after a reload: a shop that began here and was not kept is just open again.
    pub fn reopen(&mut self, fragment: &str, kind: &str, sent: &str) -> Result<(), JsValue> {
        let shop = link::read(fragment).map_err(|error| refusal("link", &error))?;
        let kind = word::named(kind).unwrap_or(Source::Loose);
        let origin = Origin {
            kind,
            sent: sent.into(),
            ..Origin::default()
        };
        self.bench = Bench::start(in_chosen(shop), origin);
        Ok(())
    }

    /// Whether the open shop is another than the one that was sent, told in the same units; never where nobody sent it.
    pub fn is_changed(&self) -> bool {
        self.as_sent()
            .is_some_and(|sent| link::write(&sent) != link::write(self.bench.shop()))
    }

    fn as_sent(&self) -> Option<Shop> {
        let sent = &self.bench.origin().sent;
        if sent.is_empty() {
            return None;
        }
        match link::read(sent) {
            Ok(shop) => Some(edit::in_units(&shop, self.bench.shop().units)),
            // Another build wrote it: then nobody can say.
            Err(_) => None,
        }
    }

    /// Puts back what was sent, as an act.
    pub fn open_as_sent(&mut self, what: &str) {
        if let Some(shop) = self.as_sent() {
            let origin = self.bench.origin().clone();
            self.bench.open(shop, origin, what);
        }
    }

    /// Whether there is nothing here to lose: a blank shop in which nothing is typed.
    pub fn is_blank(&self) -> bool {
        let shop = self.bench.shop();
        self.bench.origin().kind == Source::Fresh
            && *shop
                == Bench::start(Shop::fresh_in(shop.units), Origin::default())
                    .shop()
                    .clone()
    }

    // ---- what is kept ----

    /// What is kept, and whether anything can be.
    #[wasm_bindgen(unchecked_return_type = "Stored")]
    pub fn stored(&self) -> Answer {
        hand(&store::stored(&LocalStorage))
    }

    /// Keeps the open shop under its name or the next free one like it, and goes on under that.
    pub fn keep(&mut self) -> Result<(), JsValue> {
        let mut shop = self.bench.shop().clone();
        shop.name = told(store::free_name(&LocalStorage, &shop.name))?;
        told(store::keep(&LocalStorage, &shop))?;
        told(store::make_current(&LocalStorage, &shop.name))?;
        self.bench.set_origin(of_store(&shop.name));
        self.bench.replace(shop);
        Ok(())
    }

    /// Opens a kept shop.
    pub fn open_kept(&mut self, name: &str, what: &str) -> Result<(), JsValue> {
        let shop = told(store::fetch(&LocalStorage, name))?;
        told(store::make_current(&LocalStorage, name))?;
        self.bench.open(in_chosen(shop), of_store(name), what);
        Ok(())
    }

    /// The name of the kept shop whose link is `fragment`; null where there is none.
    #[wasm_bindgen(unchecked_return_type = "string | null")]
    pub fn kept_as(&self, fragment: &str) -> Answer {
        let shops = store::all(&LocalStorage).0;
        let same = shops.into_iter().find(|shop| link::write(shop) == fragment);
        hand(&same.map(|shop| shop.name))
    }

    /// Gives the open shop another name; where it is kept, also there.
    pub fn rename(&mut self, name: &str) -> Result<(), JsValue> {
        let origin = self.bench.origin().clone();
        if origin.kind == Source::Stored {
            told(store::rename(&LocalStorage, &origin.name, name))?;
            self.bench.set_origin(of_store(name.trim()));
        }
        self.set("name", name.trim())
    }

    /// Takes a kept shop away and returns its text; the open one stays open.
    pub fn delete(&mut self, name: &str) -> Result<String, JsValue> {
        let text = told(store::remove(&LocalStorage, name))?;
        let origin = self.bench.origin();
        if origin.kind == Source::Stored && origin.name == name {
            self.bench.set_origin(Origin {
                kind: Source::Loose,
                ..Origin::default()
            });
        }
        Ok(text)
    }

    /// Puts back what [`Self::delete`] took away; the open shop is kept again where it was that one.
    pub fn put_back(&mut self, name: &str, text: &str, was_open: bool) -> Result<(), JsValue> {
        told(store::put_back(&LocalStorage, name, text))?;
        if was_open && self.bench.origin().kind == Source::Loose {
            self.bench.set_origin(of_store(name));
        }
        Ok(())
    }

    /// Keeps a second shop like `name` and returns its name.
    pub fn duplicate(&self, name: &str) -> Result<String, JsValue> {
        told(store::duplicate(&LocalStorage, name))
    }

    /// What is kept under an entry's key, as it is.
    pub fn raw(&self, key: &str) -> Result<String, JsValue> {
        told(store::raw(&LocalStorage, key))
    }

    /// Another window changed what is kept: shows the open shop as it is kept now. Says what became of it: "same", "changed" or
    /// "gone".
    pub fn follow(&mut self) -> String {
        let origin = self.bench.origin().clone();
        if origin.kind != Source::Stored {
            return "same".into();
        }
        let before = link::write(self.bench.shop());
        self.follow_kept();
        if self.bench.origin().kind != Source::Stored {
            return "gone".into();
        }
        if link::write(self.bench.shop()) == before {
            "same".into()
        } else {
            "changed".into()
        }
    }

    /// Erases every shop, the draft and what was chosen.
    pub fn erase_all(&mut self, language: &str) -> Result<(), JsValue> {
        let erased = store::erase(&LocalStorage).and_then(|()| draft::forget(&LocalStorage));
        erased.map_err(|refused| refusal("storage", &StoreError::from(refused)))?;
        self.bench = Bench::start(Shop::fresh_in(store::usual_units(language)), Origin::default());
        Ok(())
    }

    // ---- files ----

    /// All kept shops and the open one, if it is not among them, as a file's text; how many they are; and how many could
    /// not be read.
    #[wasm_bindgen(unchecked_return_type = "[string, number, number]")]
    pub fn export_all(&self) -> Answer {
        let (kept, unread) = store::all(&LocalStorage);
        let is_kept = self.bench.origin().kind == Source::Stored;
        // What is open goes before what is kept of it: storage may have refused the last changes.
        let open = self.bench.shop();
        let others = kept
            .into_iter()
            .filter(|shop| !is_kept || shop.name != self.bench.origin().name);
        let others: Vec<Shop> = others.collect();
        let alone = !is_kept && self.is_blank() && !others.is_empty();
        let shops: Vec<Shop> = (!alone).then(|| open.clone()).into_iter().chain(others).collect();
        let text = bundle::to_json(&shops).map_err(|error| refusal("file", &error))?;
        hand(&(text, shops.len(), unread))
    }

    /// Refuses a file by its size, before it is read.
    pub fn check_size(&self, bytes: f64) -> Result<(), JsValue> {
        bundle::check_size(bytes as u64).map_err(|error| refusal("file", &error))
    }

    /// The shops in a file's text.
    #[wasm_bindgen(unchecked_return_type = "Shop[]")]
    pub fn shops_in(&self, text: &str) -> Answer {
        hand(&bundle::from_json(text).map_err(|error| refusal("file", &error))?)
    }

    /// Indices of the shops whose name is kept already.
    #[wasm_bindgen(unchecked_return_type = "number[]")]
    pub fn clashes(&self, #[wasm_bindgen(unchecked_param_type = "Shop[]")] shops: JsValue) -> Answer {
        let shops = take_shops(&shops)?;
        hand(&taking::clashes(&LocalStorage, &shops))
    }

    /// Keeps shops; `choices` are pairs of index and `both`, `replace` or `leave`.
    #[wasm_bindgen(unchecked_return_type = "Taken")]
    pub fn take_in(
        &self,
        #[wasm_bindgen(unchecked_param_type = "Shop[]")] shops: JsValue,
        #[wasm_bindgen(unchecked_param_type = "[number, OnClash][]")] choices: JsValue,
    ) -> Answer {
        let shops = take_shops(&shops)?;
        let tree = take("choices", &choices)?;
        let choices =
            decided(&tree).ok_or_else(|| refusal("choices", &"they are no pairs of index and choice"))?;
        hand(&taking::take_in(&LocalStorage, &shops, &choices))
    }

    /// Takes the steps of [`Self::take_in`] back and says what came of it.
    pub fn take_back(
        &self,
        #[wasm_bindgen(unchecked_param_type = "Step[]")] steps: JsValue,
    ) -> Result<String, JsValue> {
        let steps: Vec<Step> = take_list("steps", &steps)?;
        Ok(taking::take_back(&LocalStorage, &steps))
    }

    /// An address as a code for a phone's camera.
    #[wasm_bindgen(unchecked_return_type = "Code")]
    pub fn code(&self, address: &str) -> Answer {
        hand(&qr::code(address))
    }

    // ---- the answer ----

    /// Opens a shop by its text, only to judge it.
    pub fn tell(&mut self, text: &str, sort: &str) -> Result<(), JsValue> {
        let shop = file::from_json(text).map_err(|error| refusal("shop", &error))?;
        self.bench.replace(shop);
        self.sort = word::named(sort).unwrap_or_default();
        Ok(())
    }

    /// The report without its subjects: what a keystroke waits for; of a very large shop on a part of the work, the whole comes
    /// with [`Self::more`]. `task` below zero is the one that limits.
    #[wasm_bindgen(unchecked_return_type = "Report")]
    pub fn answer(&mut self, place: usize, task: i32) -> Answer {
        let task = (task >= 0).then_some(task as usize);
        self.view = View { place, task };
        if let Some(first) = self.memory.first(self.bench.shop(), self.view) {
            self.stage = Stage::Whole;
            return hand(first);
        }
        self.stage = Stage::Choice;
        hand(self.memory.answer(self.bench.shop(), self.view))
    }

    /// The next part of the answer, as `[name, value]`: `answer` where only a part of the work was judged, `choice`, `subjects`, `doubt`, `map`; null once all are told.
    #[wasm_bindgen(
        unchecked_return_type = "[\"answer\", Report] | [\"choice\", Comparison] | [\"subjects\", Section[]] | [\"doubt\", Told] | [\"map\", Section] | null"
    )]
    pub fn more(&mut self) -> Answer {
        let stage = self.stage;
        self.stage = stage.next();
        let shop = self.bench.shop();
        match stage {
            Stage::Whole => hand(&("answer", self.memory.answer(shop, self.view))),
            Stage::Choice => hand(&("choice", self.memory.compare(shop, self.sort))),
            Stage::Subjects => hand(&("subjects", self.memory.subjects())),
            Stage::Doubt => hand(&("doubt", self.memory.doubt(shop))),
            Stage::Map => hand(&("map", self.memory.map(shop))),
            Stage::Done => Ok(JsValue::NULL),
        }
    }

    /// The sum behind a figure of the last report, by its list and its place in it.
    #[wasm_bindgen(unchecked_return_type = "Sum | null")]
    pub fn sum(&self, list: &str, index: usize) -> Answer {
        hand(&self.memory.sum(list, index))
    }

    /// What the map that was told last says at a point of its picture.
    #[wasm_bindgen(unchecked_return_type = "Reading | null")]
    pub fn pick_on_map(&self, x: f64, y: f64) -> Answer {
        hand(&self.memory.pick_on_map([x, y]))
    }

    /// The same so many tanks to the right and so many steps of flow up.
    #[wasm_bindgen(unchecked_return_type = "Reading | null")]
    pub fn step_on_map(&self, x: f64, y: f64, right: i32, up: i32) -> Answer {
        hand(&self.memory.step_on_map([x, y], right, up))
    }
}

/// What the reader chose goes for every shop; before he chose, a shop keeps the units that it came with.
fn in_chosen(shop: Shop) -> Shop {
    match store::chosen_units(&LocalStorage) {
        Some(units) => edit::in_units(&shop, units),
        None => shop,
    }
}

fn units_of(language: &str) -> Units {
    store::chosen_units(&LocalStorage).unwrap_or_else(|| store::usual_units(language))
}

fn of_store(name: &str) -> Origin {
    Origin {
        kind: Source::Stored,
        name: name.into(),
        ..Origin::default()
    }
}

/// Version of the shop schema that this build writes.
#[wasm_bindgen]
pub fn schema() -> u32 {
    shop::SCHEMA
}
