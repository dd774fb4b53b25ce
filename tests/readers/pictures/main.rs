//! Pictures as they come from cameras, albums and ill will: upright and clean,
//! or refused in one line, within memory.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::io::Cursor;

use headwalk_tests::memory::growth_of;
use headwalk_tests::picture::{Camera, OWNER, exif_block, jpeg, scene};
use image::{ImageFormat, RgbImage};
use notebook::photo::picture::{Picture, PictureError, read};
use proptest::prelude::*;
use proptest::sample::Index;

const MOST_GROWTH: u64 = 256 << 20;

const PLACED: Camera = Camera {
    orientation: 1,
    place: Some((-12.5, 130.75)),
};

fn png(image: &RgbImage) -> Vec<u8> {
    let mut file = Cursor::new(Vec::new());
    image.write_to(&mut file, ImageFormat::Png).unwrap();
    file.into_inner()
}

fn clean(picture: &Picture) {
    for file in [&picture.jpeg, &picture.thumbnail] {
        for trace in [
            &b"Exif"[..],
            OWNER.as_bytes(),
            b"http://ns.adobe.com",
            b"Photoshop",
        ] {
            assert!(!file.windows(trace.len()).any(|at| at == trace));
        }
        let image = image::load_from_memory(file).unwrap();
        assert!(image.width().max(image.height()) <= 1600);
    }
}

/// Where red is brightest: right or left, bottom or top.
fn red_corner(image: &RgbImage) -> (bool, bool) {
    let (width, height) = image.dimensions();
    let mean = |right: bool, bottom: bool| -> u64 {
        let mut sum = 0;
        for x in 0..width / 4 {
            for y in 0..height / 4 {
                let x = if right { width - 1 - x } else { x };
                let y = if bottom { height - 1 - y } else { y };
                let pixel = image.get_pixel(x, y);
                sum += 255 + u64::from(pixel[0]) - u64::from(pixel[2]);
            }
        }
        sum
    };
    let corners = [(false, false), (true, false), (false, true), (true, true)];
    corners
        .into_iter()
        .max_by_key(|(right, bottom)| mean(*right, *bottom))
        .unwrap()
}

/// Exif 2.32, table of the Orientation tag: where row 0 and column 0 are seen.
#[test]
fn all_eight_orientations_come_out_upright() {
    let stored = scene(320, 200);
    for (orientation, turned, right, bottom) in [
        (1, false, false, false),
        (2, false, true, false),
        (3, false, true, true),
        (4, false, false, true),
        (5, true, false, false),
        (6, true, true, false),
        (7, true, true, true),
        (8, true, false, true),
    ] {
        let camera = Camera {
            orientation,
            place: None,
        };
        let picture = read(&jpeg(&stored, camera).unwrap()).unwrap();
        let size = if turned { (200, 320) } else { (320, 200) };
        assert_eq!((picture.width, picture.height), size, "{orientation}");
        let seen = image::load_from_memory(&picture.jpeg).unwrap().into_rgb8();
        assert_eq!(red_corner(&seen), (right, bottom), "{orientation}");
        clean(&picture);
    }
}

#[test]
fn the_camera_is_heard_and_its_words_are_taken_out() {
    let picture = read(&jpeg(&scene(2000, 1500), PLACED).unwrap()).unwrap();
    assert_eq!((picture.width, picture.height), (1600, 1200));
    assert_eq!(picture.place, Some((-12.5, 130.75)));
    assert_eq!(picture.taken.unwrap().to_string(), "2026-08-20 11:45:10");
    clean(&picture);
    // A small one is not made larger.
    let small = read(&png(&scene(40, 30))).unwrap();
    assert_eq!((small.width, small.height, small.place), (40, 30, None));
    clean(&small);
}

#[test]
fn what_cannot_be_a_photo_is_told_apart() {
    let whole = jpeg(&scene(300, 200), PLACED).unwrap();
    for length in [whole.len() - 1, whole.len() / 2, 700] {
        assert_eq!(
            read(&whole[..length]),
            Err(PictureError::Broken),
            "{length}"
        );
    }
    let cut = png(&scene(300, 200));
    assert_eq!(read(&cut[..cut.len() / 2]), Err(PictureError::Broken));
    assert_eq!(read(b"GIF89a\x01\0\x01\0"), Err(PictureError::NotAPicture));
    assert_eq!(read(b"%PDF-1.7"), Err(PictureError::NotAPicture));
    assert_eq!(
        read(b"\0\0\0\x18ftypavif\0\0\0\0mif1"),
        Err(PictureError::Heic)
    );
    assert_eq!(read(&vec![0; (64 << 20) + 1]), Err(PictureError::TooLong));
}

/// Writes other pixels across and down into the frame header of a JPEG.
fn boasting_jpeg(height: u16, width: u16, progressive: bool) -> Vec<u8> {
    let mut file = jpeg(&scene(64, 64), PLACED).unwrap();
    let frame = file
        .windows(4)
        .position(|at| at[0] == 0xff && at[1] == 0xc0 && at[2] == 0)
        .unwrap();
    if progressive {
        file[frame + 1] = 0xc2;
    }
    file[frame + 5..frame + 7].copy_from_slice(&height.to_be_bytes());
    file[frame + 7..frame + 9].copy_from_slice(&width.to_be_bytes());
    file
}

/// The same for the header chunk of a PNG, with its check sum (ISO 3309).
fn boasting_png(width: u32, height: u32) -> Vec<u8> {
    let mut file = png(&scene(8, 8));
    file[16..20].copy_from_slice(&width.to_be_bytes());
    file[20..24].copy_from_slice(&height.to_be_bytes());
    let sum = file[12..29].iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ if sum & 1 == 1 { 0xedb8_8320 } else { 0 }
        })
    });
    file[29..33].copy_from_slice(&(!sum).to_be_bytes());
    file
}

#[test]
fn size_is_judged_before_anything_is_decoded() {
    let too_many = |width, height| Err(PictureError::TooManyPixels { width, height });
    for (what, file, outcome) in [
        (
            "JPEG",
            boasting_jpeg(60_000, 65_000, false),
            too_many(65_000, 60_000),
        ),
        (
            "JPEG just over",
            boasting_jpeg(5_001, 10_000, false),
            too_many(10_000, 5_001),
        ),
        (
            "progressive",
            boasting_jpeg(6_000, 8_000, true),
            Err(PictureError::TooMuchMemory),
        ),
        (
            "PNG",
            boasting_png(1 << 20, 1 << 20),
            too_many(1 << 20, 1 << 20),
        ),
        (
            "PNG just over",
            boasting_png(10_000, 5_001),
            too_many(10_000, 5_001),
        ),
    ] {
        let (found, growth) = growth_of(|| read(&file));
        assert_eq!(found, outcome, "{what}");
        assert!(growth.unwrap_or(0) < 8 << 20, "{what}: {growth:?}");
    }
}

#[test]
fn fifty_megapixels_pass_within_memory() {
    let file = jpeg(&scene(8_000, 6_250), PLACED).unwrap();
    let (picture, growth) = growth_of(|| read(&file).unwrap());
    assert_eq!((picture.width, picture.height), (1600, 1250));
    println!("50 megapixels: grew by {growth:?} bytes");
    assert!(growth.unwrap_or(0) <= MOST_GROWTH, "{growth:?}");
}

fn judged(file: &[u8]) -> Result<(), TestCaseError> {
    let (outcome, growth) = growth_of(|| read(file));
    prop_assert!(growth.unwrap_or(0) <= MOST_GROWTH);
    match outcome {
        Ok(picture) => clean(&picture),
        Err(error) => {
            let line = error.to_string();
            prop_assert!(line.contains("nothing was stored") && !line.contains('\n'));
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, ..ProptestConfig::default() })]

    #[test]
    fn spoiled_pictures_are_read_or_refused(
        as_png in any::<bool>(),
        changes in prop::collection::vec(any::<(Index, u8)>(), 1..20),
        cut in prop::option::of(any::<Index>()),
    ) {
        let mut file = if as_png { png(&scene(48, 36)) } else { jpeg(&scene(48, 36), PLACED).unwrap() };
        for (at, byte) in changes {
            let at = at.index(file.len());
            file[at] = byte;
        }
        if let Some(cut) = cut {
            file.truncate(cut.index(file.len() + 1));
        }
        judged(&file)?;
    }

    #[test]
    fn spoiled_exif_never_spoils_the_photo(
        changes in prop::collection::vec(any::<(Index, u8)>(), 1..30),
        cut in prop::option::of(any::<Index>()),
    ) {
        let mut block = exif_block(PLACED).unwrap();
        for (at, byte) in changes {
            let at = at.index(block.len());
            block[at] = byte;
        }
        if let Some(cut) = cut {
            block.truncate(cut.index(block.len()));
        }
        let mut file = Vec::new();
        {
            use image::ImageEncoder as _;
            let mut encoder = image::codecs::jpeg::JpegEncoder::new_with_quality(&mut file, 90);
            encoder.set_exif_metadata(block).unwrap();
            encoder.encode_image(&scene(48, 36)).unwrap();
        }
        let picture = read(&file).unwrap();
        clean(&picture);
        if let Some((latitude, longitude)) = picture.place {
            prop_assert!(latitude.abs() <= 90.0 && longitude.abs() <= 180.0);
        }
    }

    #[test]
    fn any_bytes_are_refused(
        start in prop::sample::select(vec![&b""[..], b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"RIFF\0\0\0\0WEBP"]),
        rest in prop::collection::vec(any::<u8>(), 0..300),
    ) {
        judged(&[start, &rest].concat())?;
    }
}
