//! A photo of a machine's plate, kept beside the machine: a picture takes more room than local storage has, so the page keeps it elsewhere.

use super::envelope::Envelope;
use super::{PHOTO_PREFIX, RecordFault};
use serde::{Deserialize, Serialize};
use table::is_picture_up_to;

/// The name by which a kept text says that it is one.
pub const FORMAT: &str = "pairwright.photo";
/// The longest side of a photo that is kept, in pixels: small print on a plate that fills the picture can still be read.
pub const LONGEST_SIDE: u32 = 1600;
/// The longest text of a picture, in characters: three bytes become four.
pub const LONGEST: usize = 1_000_000;

/// A photo of a machine's plate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Photo {
    /// The id of the machine of one's own.
    pub machine: String,
    /// When it was kept, ISO 8601.
    pub taken: String,
    /// The picture as a `data:` address.
    pub picture: String,
}

const ENVELOPE: Envelope = Envelope { format: FORMAT, field: "photo", steps: &[] };

impl Photo {
    /// The key under which it is kept.
    pub fn key(&self) -> String {
        format!("{PHOTO_PREFIX}{}", self.machine)
    }

    /// The text to keep.
    pub fn encode(&self) -> String {
        ENVELOPE.encode(self)
    }

    /// Reads a kept text.
    ///
    /// # Errors
    /// [`RecordFault`] when it is damaged, no picture, too large, of another kind, or newer than this build.
    pub fn decode(text: &str) -> Result<Self, RecordFault> {
        let photo: Self = ENVELOPE.decode(text)?;
        if photo.picture.len() > LONGEST {
            return Err(RecordFault::TooLarge { most: LONGEST });
        }
        let is_sound = !photo.machine.is_empty() && is_picture_up_to(&photo.picture, LONGEST);
        if is_sound { Ok(photo) } else { Err(RecordFault::Damaged) }
    }
}

/// Width and height to which a picture is scaled down, in pixels; a smaller one stays as it is.
pub fn scaled(width: u32, height: u32) -> (u32, u32) {
    let longest = width.max(height);
    if longest <= LONGEST_SIDE {
        return (width, height);
    }
    let side = |side: u32| u64::from(side) * u64::from(LONGEST_SIDE) / u64::from(longest);
    let least = |side: u64| u32::try_from(side.max(1)).unwrap_or(LONGEST_SIDE);
    (least(side(width)), least(side(height)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn photo(picture: &str) -> Photo {
        Photo { machine: "m1".to_owned(), taken: "2026-11-25T10:00:00Z".to_owned(), picture: picture.to_owned() }
    }

    #[test]
    fn a_photo_reads_back_and_what_is_no_picture_is_refused() {
        let kept = photo("data:image/jpeg;base64,AAAA");
        assert_eq!(Photo::decode(&kept.encode()), Ok(kept));
        for picture in
            ["", "data:text/html;base64,AAAA", "data:image/jpeg;base64,<svg>", "https://elsewhere.example/a.jpg"]
        {
            assert_eq!(Photo::decode(&photo(picture).encode()), Err(RecordFault::Damaged), "{picture}");
        }
        let long = photo(&format!("data:image/jpeg;base64,{}", "A".repeat(LONGEST)));
        assert_eq!(Photo::decode(&long.encode()), Err(RecordFault::TooLarge { most: LONGEST }));
    }

    #[test]
    fn a_large_picture_is_scaled_down_in_its_shape() {
        assert_eq!(scaled(4000, 3000), (1600, 1200));
        assert_eq!(scaled(3000, 4000), (1200, 1600));
        assert_eq!(scaled(800, 600), (800, 600));
        assert_eq!(scaled(60_000, 1), (1600, 1));
    }
}
