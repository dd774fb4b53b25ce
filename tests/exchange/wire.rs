//! What travels: frames that are damaged anywhere are refused, bounds hold.

use proptest::prelude::*;
use serde_bytes::ByteBuf;
use uuid::Uuid;
use wire::frame::{self, FrameFault};
use wire::{Answer, Ask, Bounded, PAGE_CHANGES, Run, Span, Tag};

fn ask(bodies: &[Vec<u8>]) -> Ask {
    let run = Run {
        device: Uuid::from_bytes([7; 16]),
        after: 41,
        bodies: bodies.iter().cloned().map(ByteBuf::from).collect(),
    };
    Ask::Push(vec![run].into())
}

proptest! {
    #[test]
    fn a_message_comes_back_as_it_was(
        bodies in proptest::collection::vec(proptest::collection::vec(any::<u8>(), 0..400), 0..40),
    ) {
        let ask = ask(&bodies);
        let bytes = frame::encode(&ask).unwrap();
        prop_assert_eq!(frame::decode::<Ask>(&bytes).unwrap(), ask);
    }

    #[test]
    fn a_flipped_bit_is_noticed(place in any::<prop::sample::Index>(), bit in 0_u8..8) {
        let mut bytes = frame::encode(&ask(&[vec![5; 300], vec![1, 2, 3]])).unwrap();
        let place = place.index(bytes.len());
        bytes[place] ^= 1 << bit;
        prop_assert!(frame::decode::<Ask>(&bytes).is_err());
    }

    #[test]
    fn any_bytes_are_read_without_harm(bytes in proptest::collection::vec(any::<u8>(), 0..600)) {
        prop_assert!(frame::decode::<Ask>(&bytes).is_err());
        // And as a payload whose frame is right, where the reader comes to it.
        let mut inside = frame::encode(&bytes).unwrap();
        let _ = frame::decode::<Ask>(&inside);
        let _ = frame::decode::<Answer>(&inside);
        inside.truncate(inside.len() / 2);
        prop_assert_eq!(frame::decode::<Ask>(&inside).unwrap_err(), FrameFault::Cut);
    }
}

#[test]
fn a_cut_frame_is_known_for_one_at_every_length() {
    let bytes = frame::encode(&ask(&[vec![9; 700]])).unwrap();
    for length in 0..bytes.len() {
        assert_eq!(
            frame::decode::<Ask>(&bytes[..length]).unwrap_err(),
            FrameFault::Cut,
            "{length}"
        );
    }
}

#[test]
fn another_version_says_so() {
    let bytes = frame::encode_as(9, &Ask::Crew).unwrap();
    assert_eq!(
        frame::decode::<Ask>(&bytes).unwrap_err(),
        FrameFault::Version(9)
    );
}

#[test]
fn a_list_past_its_bound_is_refused_whatever_it_claims() {
    let long: Vec<Span> = (0..9_000)
        .map(|number| Span {
            device: Uuid::from_u128(number),
            after: 0,
            to: 1,
        })
        .collect();
    let bytes = frame::encode(&Ask::Pull { spans: long.into() }).unwrap();
    assert_eq!(
        frame::decode::<Ask>(&bytes).unwrap_err(),
        FrameFault::Damaged
    );
    let empty: Bounded<ByteBuf, PAGE_CHANGES> =
        (0..PAGE_CHANGES + 1).map(|_| ByteBuf::new()).collect();
    let run = Run {
        device: Uuid::nil(),
        after: 0,
        bodies: empty,
    };
    let bytes = frame::encode(&Ask::Push(vec![run].into())).unwrap();
    assert!(bytes.len() < 2_000, "packs to little, asks for much");
    assert_eq!(
        frame::decode::<Ask>(&bytes).unwrap_err(),
        FrameFault::Damaged
    );
}

#[test]
fn a_small_frame_cannot_unpack_to_more_than_it_may() {
    // 8 MB of zeros, packed: the length it claims is refused before unpacking.
    let packed = zstd::bulk::compress(&vec![0; 8 << 20], 3).unwrap();
    for claimed in [8_u32 << 20, 1_000] {
        let mut bytes = b"HW\x01\x01".to_vec();
        bytes.extend_from_slice(&claimed.to_le_bytes());
        bytes.extend_from_slice(&u32::try_from(packed.len()).unwrap().to_le_bytes());
        let mut digest = <sha2::Sha256 as sha2::Digest>::new_with_prefix(&bytes);
        sha2::Digest::update(&mut digest, &packed);
        bytes.extend_from_slice(&sha2::Digest::finalize(digest)[..8]);
        bytes.extend_from_slice(&packed);
        let fault = frame::decode::<Answer>(&bytes).unwrap_err();
        assert!(
            matches!(fault, FrameFault::TooLarge | FrameFault::Damaged),
            "{fault:?}"
        );
    }
}

#[test]
fn tags_tell_changes_apart() {
    assert_ne!(Tag::of(b"one"), Tag::of(b"two"));
    // First bytes of the digest of the empty message (FIPS 180-4 test value).
    assert_eq!(
        Tag::of(b"").0,
        [0xe3, 0xb0, 0xc4, 0x42, 0x98, 0xfc, 0x1c, 0x14]
    );
}
