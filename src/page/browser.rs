//! The browser's local storage as a [`Shelf`].

use web_sys::Storage;

use super::store::{Refused, Shelf};

/// Local storage, asked for anew each time: a browser may take it away while the page is open.
pub struct LocalStorage;

fn storage() -> Result<Storage, Refused> {
    let window = web_sys::window().ok_or(Refused)?;
    window.local_storage().map_err(|_| Refused)?.ok_or(Refused)
}

impl Shelf for LocalStorage {
    fn get(&self, key: &str) -> Result<Option<String>, Refused> {
        storage()?.get_item(key).map_err(|_| Refused)
    }
    fn set(&self, key: &str, text: &str) -> Result<(), Refused> {
        storage()?.set_item(key, text).map_err(|_| Refused)
    }
    fn clear(&self, key: &str) -> Result<(), Refused> {
        storage()?.remove_item(key).map_err(|_| Refused)
    }
    fn keys(&self) -> Result<Vec<String>, Refused> {
        let storage = storage()?;
        let count = storage.length().map_err(|_| Refused)?;
        let keys = (0..count).filter_map(|index| storage.key(index).transpose());
        keys.collect::<Result<_, _>>().map_err(|_| Refused)
    }
}
