//! Several shops in one file: all that a browser keeps, to carry it to another.
//!
//! `{ "version": 1, "shops": [ ... ] }`, each shop as [`mod@file`] writes it. A file is taken whole or not at all.

use std::fmt;

use serde_json::{Map, Value};

use crate::file::{self, FILE_MAX, FileError};
use crate::{SCHEMA, Shop};

/// Longest file that is read, bytes: what browsers keep for a page, about 5 MB, fits.
pub const BUNDLE_MAX: usize = 6_000_000;
/// Most shops in a file.
pub const SHOPS_MAX: usize = 500;

/// Why a file is not taken or written. `Display` is the sentence to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BundleError {
    /// More than [`BUNDLE_MAX`] bytes.
    TooBig {
        /// Its length, bytes.
        bytes: u64,
    },
    /// More than [`SHOPS_MAX`] shops.
    TooMany {
        /// How many.
        count: usize,
    },
    /// No shop in it.
    Empty,
    /// No file of ours.
    File(FileError),
    /// One of its shops will not do.
    Shop {
        /// Which, from 1.
        number: usize,
        /// Why.
        why: FileError,
    },
}

impl fmt::Display for BundleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooBig { bytes } => write!(
                f,
                "the file has {bytes} bytes, and Bellows takes at most {BUNDLE_MAX}: choose a file that Bellows has saved"
            ),
            Self::TooMany { count } => {
                write!(
                    f,
                    "{count} shops are too many for one file, which holds at most {SHOPS_MAX}"
                )
            }
            Self::Empty => f.write_str("there is no shop in it"),
            Self::File(why) => why.fmt(f),
            Self::Shop { number, why } => write!(f, "shop {number} in it will not do: {why}"),
        }
    }
}

impl std::error::Error for BundleError {}

/// Whether a file of so many bytes is read at all; a page asks before it reads.
///
/// # Errors
/// [`BundleError::TooBig`]
pub fn check_size(bytes: u64) -> Result<(), BundleError> {
    if bytes > BUNDLE_MAX as u64 {
        Err(BundleError::TooBig { bytes })
    } else {
        Ok(())
    }
}

/// Shops as one file.
///
/// # Errors
/// [`BundleError`] if [`from_json`] would not take it back.
pub fn to_json(shops: &[Shop]) -> Result<String, BundleError> {
    check_count(shops.len())?;
    let list = shops.iter().map(file::tree).collect();
    let mut whole = Map::new();
    whole.insert("version".to_owned(), SCHEMA.into());
    whole.insert("shops".to_owned(), Value::Array(list));
    let text = file::pretty(&Value::Object(whole));
    check_size(text.len() as u64)?;
    Ok(text)
}

/// The shops in a file with one or several.
///
/// # Errors
/// [`BundleError`], which says what was read and what would do.
///
/// # Example
/// ```
/// # use shop::bundle::{from_json, to_json}; use shop::file; use shop::Shop;
/// let shops = [Shop::fresh(), Shop::demo()];
/// assert_eq!(from_json(&to_json(&shops)?)?, shops);
/// assert_eq!(from_json(&file::to_json(&shops[1]))?, shops[1..]);
/// # Ok::<(), shop::bundle::BundleError>(())
/// ```
pub fn from_json(text: &str) -> Result<Vec<Shop>, BundleError> {
    check_size(text.len() as u64)?;
    let value = file::parsed(text).map_err(BundleError::File)?;
    let Some(list) = value.get("shops") else {
        let shop = if text.len() > FILE_MAX {
            Err(FileError::TooBig { bytes: text.len() })
        } else {
            file::shop_of(value)
        };
        return Ok(vec![shop.map_err(BundleError::File)?]);
    };
    file::check_version(&value).map_err(BundleError::File)?;
    let Value::Array(list) = list else {
        return Err(BundleError::File(file::bad_field("shops", list)));
    };
    check_count(list.len())?;
    let numbered = list.iter().zip(1..);
    numbered
        .map(|(shop, number)| one(shop).map_err(|why| BundleError::Shop { number, why }))
        .collect()
}

fn check_count(count: usize) -> Result<(), BundleError> {
    match count {
        0 => Err(BundleError::Empty),
        count if count > SHOPS_MAX => Err(BundleError::TooMany { count }),
        _ => Ok(()),
    }
}

fn one(shop: &Value) -> Result<Shop, FileError> {
    let bytes = shop.to_string().len();
    if bytes > FILE_MAX {
        return Err(FileError::TooBig { bytes });
    }
    file::shop_of(shop.clone())
}
