//! From a picture as a camera gives it to a photo as it is kept: upright, small,
//! and without the place, the owner and the camera that its file named.

use std::io::Cursor;

use chrono::{NaiveDate, NaiveDateTime};
use exif::{In, Tag, Value};
use fast_image_resize::{FilterType, ResizeAlg, ResizeOptions, Resizer};
use image::codecs::jpeg::JpegEncoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageEncoder, ImageError, ImageReader, Limits, RgbImage};
use thiserror::Error;

/// Longest side of a kept photo, pixels.
pub const LONG_SIDE: u32 = 1600;
/// Longest side of a thumbnail, pixels.
pub const SMALL_SIDE: u32 = 320;
/// Most pixels of a picture that is taken in.
pub const MOST_PIXELS: u64 = 50_000_000;
/// Longest file that is taken in: what 50 megapixels need as JPEG, and twice that.
pub const LONGEST_FILE: usize = 64 << 20;

/// Most memory for the decoded picture and the decoder's own.
const MOST_MEMORY: u64 = 210_000_000;
/// JPEG qualities. At 85 the edges of a kernel's dark spot stay clean.
const QUALITY: u8 = 85;
const SMALL_QUALITY: u8 = 75;
/// A color profile longer than this is no camera's.
const LONGEST_PROFILE: usize = 64 << 10;

/// A photo as it is kept, and what its file told beside the picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// JPEG with no data beside the picture but its color profile.
    pub jpeg: Vec<u8>,
    /// JPEG for lists.
    pub thumbnail: Vec<u8>,
    /// Pixels across, as it is to be seen.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Local time by the camera.
    pub taken: Option<NaiveDateTime>,
    /// Latitude and longitude by the camera, degrees.
    pub place: Option<(f64, f64)>,
}

/// Why a file cannot be a photo.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PictureError {
    /// Over [`LONGEST_FILE`].
    #[error("the file is longer than 64 MB: choose a smaller picture; nothing was stored")]
    TooLong,
    /// The format of many phones' own albums.
    #[error(
        "this is a HEIC or AVIF picture: set the camera to JPEG (\"most compatible\"), \
         or save the picture as JPEG; nothing was stored"
    )]
    Heic,
    /// Something else.
    #[error(
        "this is no picture that can be read here: choose a JPEG, PNG or WebP; nothing was stored"
    )]
    NotAPicture,
    /// Over [`MOST_PIXELS`].
    #[error(
        "the picture has {width} x {height} pixels, over 50 megapixels: \
         choose a smaller one; nothing was stored"
    )]
    TooManyPixels {
        /// Across.
        width: u32,
        /// Down.
        height: u32,
    },
    /// Within the pixels, but not in this kind of file.
    #[error(
        "the picture needs too much memory to be read in this kind of file: \
         save it as a plain JPEG or smaller; nothing was stored"
    )]
    TooMuchMemory,
    /// It ends before it should, or is damaged inside.
    #[error("the picture is cut off or damaged: take or choose it again; nothing was stored")]
    Broken,
}

/// Reads a picture and makes a photo of it.
///
/// # Errors
/// [`PictureError`]; pixels and memory are judged before anything is decoded.
pub fn read(file: &[u8]) -> Result<Picture, PictureError> {
    if file.len() > LONGEST_FILE {
        return Err(PictureError::TooLong);
    }
    let mut reader = ImageReader::new(Cursor::new(file))
        .with_guessed_format()
        .map_err(|_| PictureError::NotAPicture)?;
    let format = reader.format().ok_or_else(|| not_a_picture(file))?;
    if !format.reading_enabled() {
        return Err(not_a_picture(file));
    }
    let jpeg = match format {
        image::ImageFormat::Jpeg => Some(jpeg_frame(file)?),
        _ => None,
    };
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(|error| refusal(&error))?;
    let (width, height) = decoder.dimensions();
    let pixels = u64::from(width) * u64::from(height);
    if pixels > MOST_PIXELS {
        return Err(PictureError::TooManyPixels { width, height });
    }
    // A progressive JPEG is held as coefficients, two bytes each, until its end.
    let coefficients = match jpeg {
        Some(Frame { progressive: true }) => pixels.saturating_mul(6),
        _ => 0,
    };
    if decoder.total_bytes().saturating_add(coefficients) > MOST_MEMORY {
        return Err(PictureError::TooMuchMemory);
    }
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let told = decoder
        .exif_metadata()
        .ok()
        .flatten()
        .map(read_camera_record);
    let profile = decoder
        .icc_profile()
        .ok()
        .flatten()
        .filter(|profile| profile.len() <= LONGEST_PROFILE);
    let whole = DynamicImage::from_decoder(decoder)
        .map_err(|error| refusal(&error))?
        .into_rgb8();
    let mut upright = DynamicImage::from(shrunk(whole, LONG_SIDE)?);
    upright.apply_orientation(orientation);
    let upright = upright.into_rgb8();
    let (width, height) = upright.dimensions();
    let jpeg = encoded(&upright, QUALITY, profile.as_ref())?;
    let small = shrunk(upright, SMALL_SIDE)?;
    let told = told.unwrap_or_default();
    Ok(Picture {
        jpeg,
        thumbnail: encoded(&small, SMALL_QUALITY, profile.as_ref())?,
        width,
        height,
        taken: told.taken,
        place: told.place,
    })
}

/// The thumbnail of a kept photo.
///
/// # Errors
/// [`PictureError::Broken`] where it cannot be read.
pub fn thumbnail(jpeg: &[u8]) -> Result<Vec<u8>, PictureError> {
    Ok(read(jpeg)?.thumbnail)
}

fn not_a_picture(file: &[u8]) -> PictureError {
    // ISO base media: a length, "ftyp", then the brand.
    let brand = file.get(8..12).unwrap_or_default();
    let heic: [&[u8]; 7] = [
        b"heic", b"heix", b"hevc", b"mif1", b"msf1", b"avif", b"avis",
    ];
    if file.get(4..8) == Some(b"ftyp") && heic.contains(&brand) {
        PictureError::Heic
    } else {
        PictureError::NotAPicture
    }
}

fn refusal(error: &ImageError) -> PictureError {
    match error {
        ImageError::Limits(_) => PictureError::TooMuchMemory,
        ImageError::Unsupported(_) => PictureError::NotAPicture,
        _ => PictureError::Broken,
    }
}

/// What the markers of a JPEG say.
struct Frame {
    progressive: bool,
}

/// Walks over the markers of a JPEG (ITU-T T.81, annex B) to its end. Decoders
/// fill up with gray what a cut-off file lacks, so the end is looked for here.
fn jpeg_frame(file: &[u8]) -> Result<Frame, PictureError> {
    const START_OF_SCAN: u8 = 0xda;
    const END: u8 = 0xd9;
    let mut progressive = false;
    let mut at = 2;
    loop {
        // To the next marker; within a scan, over its data, whose 0xff is
        // followed by 0 or a restart marker.
        let skipped = file
            .get(at..)
            .and_then(|rest| {
                rest.windows(2)
                    .position(|pair| pair[0] == 0xff && !matches!(pair[1], 0 | 0xff | 0xd0..=0xd7))
            })
            .ok_or(PictureError::Broken)?;
        at += skipped;
        let marker = *file.get(at + 1).ok_or(PictureError::Broken)?;
        at += 2;
        match marker {
            END => return Ok(Frame { progressive }),
            // Without a length.
            0x01 | 0xd8 => {}
            _ => {
                let length = file.get(at..at + 2).ok_or(PictureError::Broken)?;
                let length = usize::from(u16::from_be_bytes([length[0], length[1]]));
                progressive |= matches!(marker, 0xc2 | 0xc6 | 0xca | 0xce);
                // A scan's data follows its header and is passed over above.
                debug_assert!(marker != START_OF_SCAN || length >= 2);
                at += length.max(2);
            }
        }
    }
}

/// Made smaller, where it is larger.
fn shrunk(image: RgbImage, long_side: u32) -> Result<RgbImage, PictureError> {
    let (width, height) = image.dimensions();
    let long = width.max(height);
    if long <= long_side {
        return Ok(image);
    }
    let side = |side: u32| {
        let scaled = u64::from(side) * u64::from(long_side) + u64::from(long / 2);
        u32::try_from(scaled / u64::from(long)).unwrap_or(1).max(1)
    };
    let (to_width, to_height) = (side(width), side(height));
    let source = fast_image_resize::images::Image::from_vec_u8(
        width,
        height,
        image.into_raw(),
        fast_image_resize::PixelType::U8x3,
    )
    .map_err(|_| PictureError::Broken)?;
    let mut target = fast_image_resize::images::Image::new(
        to_width,
        to_height,
        fast_image_resize::PixelType::U8x3,
    );
    let options = ResizeOptions::new().resize_alg(ResizeAlg::Convolution(FilterType::Hamming));
    Resizer::new()
        .resize(&source, &mut target, &options)
        .map_err(|_| PictureError::Broken)?;
    RgbImage::from_raw(to_width, to_height, target.into_vec()).ok_or(PictureError::Broken)
}

fn encoded(
    image: &RgbImage,
    quality: u8,
    profile: Option<&Vec<u8>>,
) -> Result<Vec<u8>, PictureError> {
    let mut jpeg = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut jpeg, quality);
    if let Some(profile) = profile {
        // A profile that cannot be kept costs a shade of color, no more.
        let _ = encoder.set_icc_profile(profile.clone());
    }
    encoder
        .encode_image(image)
        .map_err(|_| PictureError::Broken)?;
    Ok(jpeg)
}

/// What the camera wrote that is of use.
#[derive(Debug, Default, PartialEq)]
struct CameraRecord {
    taken: Option<NaiveDateTime>,
    place: Option<(f64, f64)>,
}

/// Reads a raw Exif block (JEITA CP-3451); anything odd in it counts as not said.
fn read_camera_record(block: Vec<u8>) -> CameraRecord {
    let mut reader = exif::Reader::new();
    reader.continue_on_error(true);
    let fields = match reader.read_raw(block) {
        Ok(fields) => fields,
        Err(error) => match error.distill_partial_result(|_| ()) {
            Ok(fields) => fields,
            Err(_) => return CameraRecord::default(),
        },
    };
    let value = |tag| fields.get_field(tag, In::PRIMARY).map(|field| &field.value);
    CameraRecord {
        taken: value(Tag::DateTimeOriginal).and_then(date_time),
        place: degrees(
            value(Tag::GPSLatitude),
            value(Tag::GPSLatitudeRef),
            b'S',
            90.0,
        )
        .zip(degrees(
            value(Tag::GPSLongitude),
            value(Tag::GPSLongitudeRef),
            b'W',
            180.0,
        )),
    }
}

fn date_time(value: &Value) -> Option<NaiveDateTime> {
    let Value::Ascii(lines) = value else {
        return None;
    };
    let told = exif::DateTime::from_ascii(lines.first()?).ok()?;
    NaiveDate::from_ymd_opt(
        i32::from(told.year),
        u32::from(told.month),
        u32::from(told.day),
    )?
    .and_hms_opt(
        u32::from(told.hour),
        u32::from(told.minute),
        u32::from(told.second),
    )
}

/// Degrees, minutes and seconds as one number, below zero where the letter is
/// `negative`.
fn degrees(value: Option<&Value>, letter: Option<&Value>, negative: u8, most: f64) -> Option<f64> {
    let (Some(Value::Rational(parts)), Some(Value::Ascii(letters))) = (value, letter) else {
        return None;
    };
    let [degrees, minutes, seconds] = parts.get(..3)? else {
        return None;
    };
    let size = degrees.to_f64() + minutes.to_f64() / 60.0 + seconds.to_f64() / 3600.0;
    let letter = letters.first()?.first()?.to_ascii_uppercase();
    // Not-a-number (a fraction over 0) fails this too.
    (size <= most).then_some(if letter == negative { -size } else { size })
}
