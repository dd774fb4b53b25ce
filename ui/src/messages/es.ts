// The Spanish texts, a chunk of their own.

export default import.meta.glob<string>('../../../src-tauri/words/catalog/es/*.ftl', {
  eager: true,
  import: 'default',
});
