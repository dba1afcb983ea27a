// The WebAssembly module: one question of text in, one answer of text out.

interface Exports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  question(size: number): number;
  answer(): number;
  answer_at(): number;
}

export type Ask = (question: string) => string;

/** Makes the engine ready. It reads no files: the few calls that it imports refuse. */
export const start = (bytes: BufferSource): Ask => {
  const module = new WebAssembly.Module(bytes);
  const refuse = () => 8; // "bad file descriptor"
  const imports: Record<string, Record<string, () => number>> = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module))
    (imports[from] ??= {})[name] = refuse;
  const engine = new WebAssembly.Instance(module, imports).exports as unknown as Exports;
  engine._initialize();
  const encoder = new TextEncoder();
  const decoder = new TextDecoder();
  return (question) => {
    const text = encoder.encode(question);
    const at = engine.question(text.length);
    new Uint8Array(engine.memory.buffer, at, text.length).set(text);
    const size = engine.answer();
    return decoder.decode(new Uint8Array(engine.memory.buffer, engine.answer_at(), size));
  };
};
