// The English texts, a chunk of their own.

export default import.meta.glob<string>(
  // What Rust alone says is not sent (`SPOKEN_BY_RUST_ALONE` in `rust.rs` has the same list).
  ['../../../src-tauri/words/catalog/en/*.ftl', '!**/sheet.ftl'],
  { eager: true, import: 'default' },
);
