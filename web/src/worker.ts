// The worker: the first message is the module, every other one a question.
import { start, type Ask } from './module';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<Uint8Array | string>) => void;
  postMessage(answer: string): void;
};
let ask: Ask | null = null;
scope.onmessage = ({ data }) => {
  if (typeof data === 'string') scope.postMessage(ask ? ask(data) : '{"error":{"id":"not-ready","reason":""}}');
  else ask = start(data as Uint8Array<ArrayBuffer>);
};
