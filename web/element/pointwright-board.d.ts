/** A position, or a board to play on. See README.md. */
export declare class PointwrightBoard extends HTMLElement {
  /** The position line that is shown. */
  position: string;
  /** Whether the reader may play on it. */
  playable: boolean;
}

/** What `pointwright-play` tells: the play that was made and the position after it. */
export interface PointwrightPlay {
  play: string;
  position: string;
}

declare global {
  interface HTMLElementTagNameMap {
    'pointwright-board': PointwrightBoard;
  }
  interface HTMLElementEventMap {
    'pointwright-play': CustomEvent<PointwrightPlay>;
    'pointwright-drawn': Event;
  }
}
