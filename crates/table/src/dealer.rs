//! Who publishes a table, as he stands on his papers.

use super::read::entry;
use quantity::{Ratio, Stated};

entry! {
    /// The dealer, as he stands on a quotation.
    pub struct Dealer {
        /// His name.
        name: String,
        /// Street and place, with commas between.
        address: Option<String>,
        /// How he is reached.
        contact: Option<String>,
        /// His logo: a PNG, JPEG or SVG as a `data:` address in base64, of 150 000 characters at the most.
        logo: Option<String> as Picture,
        /// What the tax on parts and labour is called.
        tax_name: Option<String>,
        /// That tax, as a share of the price.
        tax: Option<Stated<Ratio>> as SMALL_SHARE,
        /// For how many days a quotation is valid.
        #[cfg_attr(not(target_arch = "wasm32"), schemars(range(min = 1, max = 365)))]
        valid_days: Option<u16> as VALID_DAYS,
    }
}
