// Questions that a learner has at a board, as plain sentences, and their answers. Only what can be
// answered about the position is offered.
import type { CubeAnswer, Evaluation, PositionAnswer, Side } from './answers';
import { button, element } from './dom';
import { isAnswered, type Engine } from './engine';
import type { Texts } from './texts';

const percent = (chance: number): string => `${(100 * chance).toFixed(chance > 0.995 || chance < 0.005 ? 1 : 0)}%`;

export class AskPanel {
  readonly root: HTMLElement;
  private readonly questions = element('div', { class: 'ask-questions' });
  private readonly reply = element('div', { class: 'ask-reply', role: 'status' });
  private asked = 0;

  constructor(
    private readonly engine: Engine,
    private readonly texts: Texts,
    private readonly names: () => [string, string],
    private readonly view: () => Record<string, string>,
  ) {
    this.root = element(
      'details',
      { class: 'ask' },
      element('summary', {}, texts.ask),
      this.questions,
      this.reply,
    );
  }

  /** Offers the questions that this position can be asked. */
  async about(position: string): Promise<void> {
    const at = ++this.asked;
    const about = await this.engine.position({ position, ...this.view() });
    if (at !== this.asked) return;
    this.reply.replaceChildren();
    const offered: [string, () => Promise<Node[]>][] = [];
    const { texts } = this;
    if (isAnswered(about) && about.turn && !about.over) {
      const before = { position, turn: about.turn };
      if (about.roll) offered.push([texts.askWhatMay, () => this.whatMay(about)]);
      else offered.push([texts.askWhatCan, () => this.whatCan(before)]);
      offered.push([texts.askWhoLeads, () => this.whoLeads(before)]);
      if (about.roll) {
        offered.push([texts.askWhatShould, () => this.whatShould(about)]);
      } else {
        const cube = await this.engine.cube({ ...before, ...this.view() });
        if (at !== this.asked) return;
        if (isAnswered(cube) && cube.mayDouble) {
          offered.push([texts.askDouble, () => Promise.resolve(this.shouldDouble(cube))]);
          offered.push([texts.askTake, () => Promise.resolve(this.shouldTake(cube))]);
        }
      }
    }
    this.questions.replaceChildren(
      ...offered.map(([text, answer]) => button(text, () => void this.answer(answer), { class: 'quiet' })),
    );
    this.root.hidden = offered.length === 0;
  }

  private async answer(answer: () => Promise<Node[]>): Promise<void> {
    const at = this.asked;
    const nodes = await answer();
    if (at === this.asked) this.reply.replaceChildren(...nodes);
  }

  private name(side: Side): string {
    return this.names()[side === 'light' ? 0 : 1];
  }

  private async whatMay(about: PositionAnswer): Promise<Node[]> {
    const { texts } = this;
    const answer = await this.engine.plays({ position: about.position, ...this.view() });
    if (!isAnswered(answer)) return [];
    const shown = answer.plays.slice(0, 24).map(({ play }) => play);
    const rest = answer.plays.length - shown.length;
    return [
      element('p', {}, texts.mayPlay(answer.plays.length, this.name(about.turn ?? 'light'), about.roll ?? '')),
      element('p', { class: 'plays' }, shown.join('; '), rest > 0 ? `; ${texts.andMore(rest)}` : ''),
      element('p', { class: 'rule' }, answer.duty),
    ];
  }

  private async whatCan(before: Record<string, string>): Promise<Node[]> {
    const answer = await this.engine.chances({ ...before, ...this.view() });
    if (!isAnswered(answer)) return [];
    const lines = answer.lines.filter(({ ways }) => ways > 0).map(({ why }) => element('li', {}, why));
    return [element('ul', {}, ...lines), element('p', { class: 'known' }, this.texts.exact)];
  }

  private how(evaluation: Evaluation): string {
    const { texts } = this;
    return evaluation.known === 'exact' ? texts.exact : evaluation.known === 'searched' ? texts.searched(evaluation.depth ?? 1) : texts.estimated;
  }

  private async whoLeads(before: Record<string, string>): Promise<Node[]> {
    const { texts } = this;
    const answer = await this.engine.evaluation({ ...before, ...this.view() });
    if (!isAnswered(answer)) return [];
    const [light, dark] = answer.pips;
    const ahead: Side = light <= dark ? 'light' : 'dark';
    const race =
      light === dark
        ? texts.level(light)
        : texts.leads(this.name(ahead), Math.abs(light - dark), Math.min(light, dark), Math.max(light, dark));
    const favoured = answer.win >= 0.5;
    const side: Side = favoured ? answer.side : answer.side === 'light' ? 'dark' : 'light';
    const win = favoured ? answer.win : 1 - answer.win;
    const gammon = favoured ? answer.winGammon : answer.loseGammon;
    return [
      element('p', {}, `${race} `, element('span', { class: 'known' }, texts.exact)),
      element(
        'p',
        {},
        `${texts.chance(this.name(side), percent(win), gammon > 0.005 ? percent(gammon) : '', answer.known === 'exact')} `,
        element('span', { class: 'known' }, this.how(answer)),
      ),
    ];
  }

  private shouldDouble(cube: CubeAnswer): Node[] {
    return [element('p', {}, this.texts.cubeAction[cube.action ?? 'none'](this.name(cube.side))), ...this.cubeNumbers(cube)];
  }
  private shouldTake(cube: CubeAnswer): Node[] {
    const taker: Side = cube.side === 'light' ? 'dark' : 'light';
    return [element('p', {}, this.texts.cubeReply[cube.reply ?? 'take'](this.name(taker))), ...this.cubeNumbers(cube)];
  }
  private cubeNumbers({ side, hold = 0, take = 0, drop = 1, known, chances }: CubeAnswer): Node[] {
    const { texts } = this;
    const worth = (value: number) => `${value < 0 ? '−' : ''}${Math.abs(value).toFixed(2)}`;
    const gammon = chances && chances.winGammon > 0.005 ? percent(chances.winGammon) : '';
    return [
      element('p', {}, chances ? texts.chance(this.name(side), percent(chances.win), gammon, chances.known === 'exact') : ''),
      element('p', {}, texts.cubeWorth(this.name(side), worth(hold), worth(take), worth(drop))),
      element('p', { class: 'known' }, known === 'exact' ? texts.cubeExact : texts.cubeModel(chances?.known === 'exact')),
    ];
  }

  private async whatShould(about: PositionAnswer): Promise<Node[]> {
    const { texts } = this;
    const answer = await this.engine.ranking({ position: about.position, ...this.view() });
    if (!isAnswered(answer)) return [];
    const [best, ...others] = answer.plays;
    if (!best) return [element('p', {}, texts.noMove(this.name(about.turn ?? 'light'), about.roll ?? ''))];
    return [
      element('p', {}, texts.best(best.play, percent(best.after.win))),
      ...(answer.reasons ?? []).slice(0, 3).map((reason) => element('p', {}, reason)),
      element(
        'ul',
        {},
        ...others.slice(0, 3).map(({ play, equity }) =>
          element('li', {}, texts.then(play, (best.equity - equity).toFixed(2))),
        ),
      ),
      element('p', { class: 'known' }, this.how(best.after)),
    ];
  }
}
