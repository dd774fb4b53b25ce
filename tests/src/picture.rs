//! Pictures as a camera writes them, for checks of photos.

use std::io::Cursor;

use exif::experimental::Writer;
use exif::{Field, In, Rational, Tag, Value};
use image::codecs::jpeg::JpegEncoder;
use image::{ImageEncoder, Rgb, RgbImage};

/// A name that no kept photo may hold.
pub const OWNER: &str = "Owner 4711";

/// What a camera writes beside the picture.
#[derive(Debug, Clone, Copy)]
pub struct Camera {
    /// Exif orientation, 1 to 8.
    pub orientation: u16,
    /// Latitude and longitude, whole minutes.
    pub place: Option<(f64, f64)>,
}

/// A field of kernels of a kind: a gradient with blotches, red at the top left,
/// blue at the bottom right.
pub fn scene(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let blotch = ((x * 7 + y * 13) % 61) as u8;
        let across = (u64::from(x) * 200 / u64::from(width.max(1))) as u8;
        let down = (u64::from(y) * 200 / u64::from(height.max(1))) as u8;
        Rgb([220 - across, blotch + 40, down])
    })
}

/// As JPEG with what the camera tells.
///
/// # Errors
/// When the picture cannot be written.
pub fn jpeg(image: &RgbImage, camera: Camera) -> Result<Vec<u8>, Box<dyn std::error::Error>> {
    let mut file = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut file, 90);
    encoder.set_exif_metadata(exif_block(camera)?)?;
    encoder.encode_image(image)?;
    Ok(file)
}

/// The Exif block alone.
///
/// # Errors
/// When it cannot be written.
pub fn exif_block(camera: Camera) -> Result<Vec<u8>, Box<dyn std::error::Error>> {
    let field = |tag, value| Field {
        tag,
        ifd_num: In::PRIMARY,
        value,
    };
    let ascii = |text: &str| Value::Ascii(vec![text.as_bytes().to_vec()]);
    let mut fields = vec![
        field(Tag::Orientation, Value::Short(vec![camera.orientation])),
        field(Tag::Artist, ascii(OWNER)),
        field(Tag::DateTimeOriginal, ascii("2026:08:20 11:45:10")),
    ];
    if let Some((latitude, longitude)) = camera.place {
        let parts = |degrees: f64| {
            let whole = degrees.abs().trunc();
            let minutes = ((degrees.abs() - whole) * 60.0).round();
            let rational = |num: f64| Rational {
                num: num as u32,
                denom: 1,
            };
            Value::Rational(vec![rational(whole), rational(minutes), rational(0.0)])
        };
        let letter = |degrees: f64, positive, negative| {
            ascii(if degrees < 0.0 { negative } else { positive })
        };
        fields.push(field(Tag::GPSLatitudeRef, letter(latitude, "N", "S")));
        fields.push(field(Tag::GPSLatitude, parts(latitude)));
        fields.push(field(Tag::GPSLongitudeRef, letter(longitude, "E", "W")));
        fields.push(field(Tag::GPSLongitude, parts(longitude)));
    }
    let mut writer = Writer::new();
    for field in &fields {
        writer.push_field(field);
    }
    let mut block = Cursor::new(Vec::new());
    writer.write(&mut block, false)?;
    Ok(block.into_inner())
}
