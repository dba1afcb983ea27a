// The WebAssembly engine in Node, through the same door as in a page.
export const start = (bytes) => {
  const module = new WebAssembly.Module(bytes);
  const imports = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module)) (imports[from] ??= {})[name] = () => 8;
  const engine = new WebAssembly.Instance(module, imports).exports;
  engine._initialize();
  return (question) => {
    const text = Buffer.from(question);
    const at = engine.question(text.length);
    new Uint8Array(engine.memory.buffer, at, text.length).set(text);
    const size = engine.answer();
    return Buffer.from(new Uint8Array(engine.memory.buffer, engine.answer_at(), size));
  };
};
