// What a reader has answered and read in a course: kept in the browser, saved to a file on request.
import { storage } from './dom';

interface Saved {
  pointwright: 'progress';
  version: 1;
  course: string;
  seed: number;
  answers: Record<string, { right: boolean; tries: number }>;
  read: Record<string, true>;
}

const isSaved = (value: unknown, course: string): value is Saved => {
  const saved = value as Partial<Saved> | null;
  return (
    typeof saved === 'object' &&
    saved?.pointwright === 'progress' &&
    saved.version === 1 &&
    saved.course === course &&
    typeof saved.seed === 'number' &&
    typeof saved.answers === 'object' &&
    saved.answers !== null &&
    Object.values(saved.answers).every((each) => typeof each?.right === 'boolean' && typeof each.tries === 'number') &&
    typeof saved.read === 'object' &&
    saved.read !== null
  );
};

export class Progress {
  onChange: () => void = () => undefined;
  /** Whether the browser keeps it. */
  kept = true;
  private saved: Saved;
  private readonly key: string;

  constructor(private readonly course: string) {
    this.key = `pointwright:course:${course}`;
    this.saved = this.load() ?? this.fresh();
    this.save();
    // Another tab may have gone on.
    addEventListener('storage', (event) => {
      if (event.key !== this.key) return;
      this.saved = this.load() ?? this.fresh();
      this.onChange();
    });
  }

  private fresh(): Saved {
    const [seed = 1] = crypto.getRandomValues(new Uint32Array(1));
    return { pointwright: 'progress', version: 1, course: this.course, seed, answers: {}, read: {} };
  }

  private parse(text: string): Saved | null {
    try {
      const value: unknown = JSON.parse(text);
      return isSaved(value, this.course) ? value : null;
    } catch {
      return null;
    }
  }

  private load(): Saved | null {
    const text = storage.get(this.key);
    return text === null ? null : this.parse(text);
  }

  private save(): void {
    this.kept = storage.set(this.key, JSON.stringify(this.saved));
  }

  get seed(): number {
    return this.saved.seed;
  }
  isRight(question: string): boolean {
    return this.saved.answers[question]?.right ?? false;
  }
  wasRead(chapter: string): boolean {
    return this.saved.read[chapter] ?? false;
  }

  answered(question: string, right: boolean): void {
    // What another tab has answered meanwhile stays.
    this.saved = this.load() ?? this.saved;
    const before = this.saved.answers[question] ?? { right: false, tries: 0 };
    this.saved.answers[question] = { right: before.right || right, tries: before.tries + 1 };
    this.save();
    this.onChange();
  }
  markRead(chapter: string): void {
    if (this.wasRead(chapter)) return;
    this.saved = this.load() ?? this.saved;
    this.saved.read[chapter] = true;
    this.save();
    this.onChange();
  }

  toText(): string {
    return `${JSON.stringify(this.saved, null, 2)}\n`;
  }
  /** Whether the text was progress of this course. */
  open(text: string): boolean {
    const saved = this.parse(text);
    if (!saved) return false;
    this.saved = saved;
    this.save();
    this.onChange();
    return true;
  }
  forget(): void {
    this.saved = this.fresh();
    this.save();
    this.onChange();
  }
}
