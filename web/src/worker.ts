// The worker: the first message is the module, in bytes or as a page carries it, gzip in base64;
// every other one a question. Answers come in the order of the questions.
import { start, type Ask } from './module';

interface Packed {
  packed: string;
}

const scope = self as unknown as {
  onmessage: (event: MessageEvent<Uint8Array<ArrayBuffer> | Packed | string>) => void;
  postMessage(answer: string): void;
};

const unpacked = ({ packed }: Packed): Promise<ArrayBuffer> => {
  const binary = atob(packed.trim());
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < bytes.length; ++i) bytes[i] = binary.charCodeAt(i);
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).arrayBuffer();
};

let ready: Promise<Ask> = Promise.resolve(() => '{"error":{"id":"not-ready","reason":""}}');
scope.onmessage = ({ data }) => {
  if (typeof data === 'string') void ready.then((ask) => scope.postMessage(ask(data)));
  else ready = Promise.resolve(data instanceof Uint8Array ? data : unpacked(data)).then(start);
};
