// The English texts, a chunk of their own.

export default import.meta.glob<string>('../../../src-tauri/words/catalog/en/*.ftl', {
  eager: true,
  import: 'default',
});
