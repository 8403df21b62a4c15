//! What the page can call: whole values in and out. A refusal is thrown as `{ field, message }`.

use std::cell::RefCell;
use std::fmt::Display;

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::browser::LocalStorage;
use super::store::{self, StoreError};
use super::taking::{self, Choice, Step};
use answer::report::{Sort, View};
use shop::change::Fault;
use shop::{Candidate, Place, Shop, Task, Units};
use shop::{bundle, file, link, qr};

thread_local! {
    /// The page has one shop at a time; what its window rests on seldom changes.
    static MEMORY: RefCell<answer::Memory> = RefCell::default();
}

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
fn take<T: DeserializeOwned>(what: &str, value: &JsValue) -> Result<T, JsValue> {
    let text = js_sys::JSON::stringify(value)
        .map(String::from)
        .unwrap_or_default();
    let tree = file::parsed(&text).map_err(|error| refusal(what, &error))?;
    serde_json::from_value(tree).map_err(|error| refusal(what, &error))
}

fn told<T>(result: Result<T, StoreError>) -> Result<T, JsValue> {
    result.map_err(|error| refusal("storage", &error))
}

/// Version of the shop schema that this build writes.
#[wasm_bindgen]
pub fn schema() -> u32 {
    shop::SCHEMA
}

/// The shop that a first visit finds in such units: the label still blank.
#[wasm_bindgen]
pub fn fresh(units: JsValue) -> Answer {
    hand(&Shop::fresh_in(take("units", &units)?))
}

/// The invented example, with three machines to choose from.
#[wasm_bindgen]
pub fn demo() -> Answer {
    hand(&Shop::demo())
}

/// A candidate of which nothing is known yet.
#[wasm_bindgen]
pub fn blank_candidate() -> Answer {
    hand(&Candidate::default())
}

/// A place of which nothing is known yet.
#[wasm_bindgen]
pub fn blank_place() -> Answer {
    hand(&Place::default())
}

/// A task of a kind, typical in all.
#[wasm_bindgen]
pub fn blank_task(kind: JsValue) -> Answer {
    hand(&Task {
        kind: take("kind", &kind)?,
        on: true,
        ..Task::default()
    })
}

/// Shop and view in, report out, without its subjects.
#[wasm_bindgen]
pub fn assess(shop: JsValue, view: JsValue) -> Answer {
    let shop: Shop = take("shop", &shop)?;
    let view: View = take("view", &view)?;
    MEMORY.with_borrow_mut(|memory| hand(memory.answer(&shop, view)))
}

/// The subjects of the last report: they may come a frame later than its sentence.
#[wasm_bindgen]
pub fn subjects() -> Answer {
    MEMORY.with_borrow_mut(|memory| hand(&memory.subjects()))
}

/// The sum behind a figure of the last report, by its list and its place in it.
#[wasm_bindgen]
pub fn sum_of(list: &str, index: usize) -> Answer {
    MEMORY.with_borrow(|memory| hand(&memory.sum(list, index)))
}

/// The map of flow against tank: a section of its own, as it costs more than a keystroke may.
#[wasm_bindgen]
pub fn map(shop: JsValue) -> Answer {
    let shop: Shop = take("shop", &shop)?;
    hand(&MEMORY.with_borrow_mut(|memory| memory.map(&shop)))
}

/// What the map that was asked for last says at a point of its picture.
#[wasm_bindgen]
pub fn pick_on_map(x: f64, y: f64) -> Answer {
    hand(&MEMORY.with_borrow(|memory| memory.pick_on_map([x, y])))
}

/// The same so many tanks to the right and so many steps of flow up.
#[wasm_bindgen]
pub fn step_on_map(x: f64, y: f64, right: i32, up: i32) -> Answer {
    hand(&MEMORY.with_borrow(|memory| memory.step_on_map([x, y], right, up)))
}

/// All candidates side by side, best first by what the reader cares about.
#[wasm_bindgen]
pub fn compare(shop: JsValue, sort: JsValue) -> Answer {
    let shop: Shop = take("shop", &shop)?;
    let sort: Sort = take("sort", &sort)?;
    hand(&MEMORY.with_borrow_mut(|memory| memory.compare(&shop, sort)))
}

/// What the odds of the chosen machine rest on: a sentence and a subject.
#[wasm_bindgen]
pub fn doubt_told(shop: JsValue) -> Answer {
    let shop: Shop = take("shop", &shop)?;
    hand(&MEMORY.with_borrow_mut(|memory| memory.doubt(&shop)))
}

/// A shop as the fragment of an address.
#[wasm_bindgen]
pub fn link_of(shop: JsValue) -> Result<String, JsValue> {
    Ok(link::write(&take("shop", &shop)?))
}

/// The shop in the fragment of an address.
#[wasm_bindgen]
pub fn read_link(fragment: &str) -> Answer {
    hand(&link::read(fragment).map_err(|error| refusal("link", &error))?)
}

/// The page's address as a code for a phone's camera.
#[wasm_bindgen]
pub fn code(address: &str) -> Answer {
    hand(&qr::code(address))
}

/// A shop as a file's text.
#[wasm_bindgen]
pub fn export_text(shop: JsValue) -> Result<String, JsValue> {
    Ok(file::to_json(&take("shop", &shop)?))
}

/// All kept shops and the open one, if it is not among them, as a file's text; and how many could not be read.
#[wasm_bindgen]
pub fn export_all(open: JsValue) -> Answer {
    let open: Option<Shop> = take("shop", &open)?;
    let (kept, unread) = store::all(&LocalStorage);
    let shops: Vec<_> = open.into_iter().chain(kept).collect();
    let text = bundle::to_json(&shops).map_err(|error| refusal("file", &error))?;
    hand(&(text, shops.len(), unread))
}

/// Refuses a file by its size, before it is read.
#[wasm_bindgen]
pub fn check_size(bytes: f64) -> Result<(), JsValue> {
    bundle::check_size(bytes as u64).map_err(|error| refusal("file", &error))
}

/// The shops in a file's text.
#[wasm_bindgen]
pub fn import_text(text: &str) -> Answer {
    hand(&bundle::from_json(text).map_err(|error| refusal("file", &error))?)
}

/// Indices of the shops whose name is kept already.
#[wasm_bindgen]
pub fn clashes(shops: JsValue) -> Answer {
    let shops: Vec<Shop> = take("shops", &shops)?;
    hand(&taking::clashes(&LocalStorage, &shops))
}

/// Keeps shops; `choices` are pairs of index and `both`, `replace` or `leave`.
#[wasm_bindgen]
pub fn take_in(shops: JsValue, choices: JsValue) -> Answer {
    let shops: Vec<Shop> = take("shops", &shops)?;
    let choices: Vec<(usize, Choice)> = take("choices", &choices)?;
    hand(&taking::take_in(&LocalStorage, &shops, &choices))
}

/// Takes the steps of [`take_in`] back and says what came of it.
#[wasm_bindgen]
pub fn take_back(steps: JsValue) -> Result<String, JsValue> {
    let steps: Vec<Step> = take("steps", &steps)?;
    Ok(taking::take_back(&LocalStorage, &steps))
}

/// What is kept, and whether anything can be.
#[wasm_bindgen]
pub fn stored() -> Answer {
    hand(&store::stored(&LocalStorage))
}

/// Keeps a shop under its name.
#[wasm_bindgen]
pub fn keep(shop: JsValue) -> Result<(), JsValue> {
    told(store::keep(&LocalStorage, &take("shop", &shop)?))
}

/// The profile `name`. (Not called `fetch`: that would hide the browser's own from the module around this one.)
#[wasm_bindgen]
pub fn kept(name: &str) -> Answer {
    hand(&told(store::fetch(&LocalStorage, name))?)
}

/// Takes a profile away and returns its text.
#[wasm_bindgen]
pub fn remove(name: &str) -> Result<String, JsValue> {
    told(store::remove(&LocalStorage, name))
}

/// Puts back what [`remove`] took away.
#[wasm_bindgen]
pub fn put_back(name: &str, text: &str) -> Result<(), JsValue> {
    told(store::put_back(&LocalStorage, name, text))
}

/// Gives a profile another name.
#[wasm_bindgen]
pub fn rename(old: &str, new: &str) -> Result<(), JsValue> {
    told(store::rename(&LocalStorage, old, new))
}

/// Keeps a second profile like `name` and returns its name.
#[wasm_bindgen]
pub fn duplicate(name: &str) -> Result<String, JsValue> {
    told(store::duplicate(&LocalStorage, name))
}

/// A name like `name` that no profile has.
#[wasm_bindgen]
pub fn free_name(name: &str) -> Result<String, JsValue> {
    told(store::free_name(&LocalStorage, name))
}

/// What is kept under an entry's key, as it is.
#[wasm_bindgen]
pub fn raw(key: &str) -> Result<String, JsValue> {
    told(store::raw(&LocalStorage, key))
}

/// Remembers which profile was open last.
#[wasm_bindgen]
pub fn make_current(name: &str) -> Result<(), JsValue> {
    told(store::make_current(&LocalStorage, name))
}

/// The unit system that the reader chose, `us` or `metric`; null before he has.
#[wasm_bindgen]
pub fn chosen_units() -> Answer {
    hand(&store::chosen_units(&LocalStorage))
}

/// The unit system of a first visit, from the browser's language.
#[wasm_bindgen]
pub fn usual_units(language: &str) -> Answer {
    hand(&store::usual_units(language))
}

/// Remembers the unit system that the reader chose.
#[wasm_bindgen]
pub fn choose_units(units: JsValue) -> Result<(), JsValue> {
    let units: Units = take("units", &units)?;
    told(store::choose_units(&LocalStorage, units))
}
