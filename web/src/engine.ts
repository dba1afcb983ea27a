// The door to the engine: questions go to a worker, answers come back as promises.
import type * as A from './answers';

type Fields = Record<string, string | number | undefined>;

/** Whether the engine could answer. */
export const isAnswered = (answer: A.Unanswered): boolean => !answer.error && !answer.faults;

export class Engine {
  private waiting: { resolve: (answer: string) => void; reject: (error: Error) => void }[] = [];

  private constructor(
    private readonly worker: Worker,
    private readonly ready: Promise<void>,
  ) {
    // Answers come in the order of the questions.
    worker.onmessage = ({ data }: MessageEvent<string>) => this.waiting.shift()?.resolve(data);
    worker.onerror = (event) => {
      for (const each of this.waiting.splice(0)) each.reject(new Error(event.message));
    };
  }

  /** Starts the worker from the two data blocks of the page, or from the files that they name. */
  static fromPage(): Engine {
    const block = (id: string) => document.getElementById(id);
    const { file, digest } = block('pw-engine')?.dataset ?? {};
    if (file && digest) {
      const worker = new Worker(block('pw-worker')?.dataset['file'] ?? '');
      const bytes = fetch(file, { integrity: digest }).then((answer) => answer.arrayBuffer());
      return Engine.start(worker, bytes);
    }
    const script = block('pw-worker')?.textContent ?? '';
    const worker = new Worker(URL.createObjectURL(new Blob([script], { type: 'text/javascript' })));
    // The worker unpacks the engine: here that would hold up the page.
    worker.postMessage({ packed: block('pw-engine')?.textContent ?? '' });
    return new Engine(worker, Promise.resolve());
  }

  /** An engine of these bytes, which may still be on their way. */
  static start(worker: Worker, bytes: ArrayBuffer | Promise<ArrayBuffer>): Engine {
    const ready = Promise.resolve(bytes).then((all) => worker.postMessage(new Uint8Array(all), [all]));
    ready.catch(() => undefined); // Every question says so.
    return new Engine(worker, ready);
  }

  /** A question as text, and its answer as text. */
  private askText(question: string): Promise<string> {
    return new Promise((resolve, reject) => {
      this.ready.then(() => {
        this.waiting.push({ resolve, reject });
        this.worker.postMessage(question);
      }, reject);
    });
  }

  private async ask<T>(verb: string, fields: Fields, more: readonly string[] = []): Promise<T> {
    const lines = Object.entries(fields)
      .filter(([, value]) => value !== undefined && value !== '')
      .map(([key, value]) => `${key} ${String(value).replace(/\s+/g, ' ')}`);
    return JSON.parse(await this.askText([verb, ...lines, ...more].join('\n'))) as T;
  }

  position(fields: Fields) {
    return this.ask<A.PositionAnswer & A.Unanswered>('position', fields);
  }
  picture(fields: Fields) {
    return this.ask<A.PictureAnswer>('picture', fields);
  }
  ground(fields: Fields) {
    return this.ask<{ ground: string; figures: string }>('ground', fields);
  }
  diagram(fields: Fields) {
    return this.ask<{ svg: string }>('diagram', fields);
  }
  plays(fields: Fields) {
    return this.ask<A.PlaysAnswer & A.Unanswered>('plays', fields);
  }
  rule(fields: Fields) {
    return this.ask<A.Ruling & A.Unanswered>('rule', fields);
  }
  turn(fields: Fields) {
    return this.ask<A.TurnAnswer & A.Unanswered>('turn', fields);
  }
  chances(fields: Fields) {
    return this.ask<A.ChancesAnswer & A.Unanswered>('chances', fields);
  }
  evaluation(fields: Fields) {
    return this.ask<A.EvaluationAnswer & A.Unanswered>('evaluation', fields);
  }
  cube(fields: Fields) {
    return this.ask<A.CubeAnswer & A.Unanswered>('cube', fields);
  }
  ranking(fields: Fields) {
    return this.ask<A.RankingAnswer & A.Unanswered>('ranking', fields);
  }
  sealed(seed: string, words = '', number?: number) {
    return this.ask<{ digest?: string; dice?: [number, number] }>('sealed', { seed, words, number });
  }
  /** Throws as lines of a record, or as one line "throws 6-4 3-1". */
  throws(fields: Fields, noted: readonly string[]) {
    return this.ask<A.ThrowsAnswer>('throws', fields, noted);
  }
  private async ofRecord<T>(verb: string, record: readonly string[]): Promise<T> {
    return JSON.parse(await this.askText([verb, ...record].join('\n'))) as T;
  }
  table(record: readonly string[]) {
    return this.ofRecord<A.TableAnswer>('table', record);
  }
  decision(record: readonly string[]) {
    return this.ofRecord<A.DecisionAnswer>('decision', record);
  }
  verify(record: readonly string[]) {
    return this.ofRecord<A.VerifyAnswer>('verify', record);
  }
}
