// What the engine answers: the types of the JSON that web/answers_*.cpp write.

export type Side = 'light' | 'dark';
export const other = (side: Side): Side => (side === 'light' ? 'dark' : 'light');

/** A place as one side counts: 25 the bar, 24 to 1 the points, 0 off. */
export type Place = number;
export type Camps = Record<Side, number[]>;
export type Box = [x: number, y: number, width: number, height: number];

export interface Fault {
  id: string;
  begin: number;
  end: number;
  reason: string;
  fix: string;
}
/** A question that could not be answered. */
export interface Unanswered {
  error?: { id: string; reason: string };
  faults?: Fault[];
}

export interface PositionAnswer {
  position: string;
  link: string;
  title: string;
  spoken: string;
  over: boolean;
  contact: boolean;
  camps: Camps;
  pips: [number, number];
  turn?: Side;
  roll?: string;
}

export interface PictureAnswer {
  svg: string;
  width: number;
  height: number;
  light: Box[];
  dark: Box[];
}

export interface Ruling {
  allowed: boolean;
  play?: string;
  after?: string;
  proof?: string;
  rule?: string;
  statement?: string;
  alternatives?: string[];
}

export interface PlaysAnswer {
  position: string;
  plays: { play: string; after: string }[];
  duty: string;
}

export interface Journey {
  from: Place;
  to: Place;
  steps: [Place, Place][];
}

export interface TurnAnswer {
  moves: string;
  position: string;
  complete: boolean;
  astray: boolean;
  can: Journey[];
  left: number[];
  play?: string;
  next?: string;
  refused?: Ruling & Unanswered;
}

export interface ChancesAnswer {
  known: 'exact';
  lines: {
    query: string;
    verb: string;
    phrase: string;
    ways: number;
    fraction: string;
    rolls: string[];
    why: string;
  }[];
}

/** Chances of one side, from 0 to 1; those of gammons include backgammons. */
export interface Evaluation {
  win: number;
  winGammon: number;
  winBackgammon: number;
  loseGammon: number;
  loseBackgammon: number;
  origin: 'game-over' | 'exact-table' | 'table' | 'race-net' | 'contact-net';
  known: 'exact' | 'estimated' | 'searched';
  depth?: number;
}
export interface EvaluationAnswer extends Evaluation {
  equity: number;
  side: Side;
  contact: boolean;
  pips: [number, number];
}

/** What to do about the cube before a roll. Worths are the doubler's, in units of the cube as it stands. */
export interface CubeAnswer {
  side: Side;
  mayDouble: boolean;
  proof: string;
  action?: 'none' | 'hold' | 'double' | 'too good';
  reply?: 'take' | 'drop' | 'beaver';
  hold?: number;
  take?: number;
  drop?: number;
  /** From a table of both sides with the cube, or by the model of the cube. */
  known?: 'exact' | 'modelled';
  chances?: Evaluation;
}

export interface RankingAnswer {
  plays: { play: string; equity: number; after: Evaluation }[];
  reasons?: string[];
}

export interface RecordFault {
  line: number;
  proof: string;
  rule?: string;
  statement?: string;
  alternatives: string[];
}

export type Phase = 'opening' | 'to-roll' | 'offered' | 'beavered' | 'to-play' | 'over';

export interface TableAnswer {
  phase: Phase;
  game: number;
  position: string;
  before: string;
  title: string;
  spoken: string;
  camps: Camps;
  names: [string, string];
  pips: [number, number];
  moves: string;
  ties: number;
  throws: number;
  sheet: { game: number; text: string; line: number; side?: Side }[];
  turn?: Side;
  roll?: string;
  match?: number;
  score?: [number, number];
  crawford?: boolean;
  beavers: boolean;
  cube: number;
  holder?: Side;
  cubeInUse: boolean;
  mayOffer?: boolean;
  offerDead?: boolean;
  offerProof?: string;
  result?: {
    winner: Side;
    kind: 'single' | 'gammon' | 'backgammon';
    dropped: boolean;
    points: number;
    words: string;
    score?: [number, number];
    matchOver?: boolean;
    scoreWords?: string;
  };
  fault?: RecordFault;
}

export interface DecisionAnswer {
  events: string[];
  throws: boolean;
  reason: string;
  fault?: RecordFault;
}

export interface VerifyAnswer {
  digest: string;
  sealed: string;
  holds: boolean;
  throws: number;
  wrong: number[];
}

/** Throws made again from a secret, beside what somebody noted. */
export interface ThrowsAnswer {
  error?: { id: string; reason: string };
  digest?: string;
  /** Whether the secret fits the seal, where a seal was given. */
  fits?: boolean;
  throws?: { number: number; made: [number, number]; noted?: [number, number]; holds: boolean }[];
}
