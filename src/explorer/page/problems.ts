import type { ShownProblem } from "../engine/problems.ts";
import { button, byId, made } from "./dom.ts";

/** The mistakes of the text, in the words of the command line. */
export class Problems {
  private readonly home = byId("problems");
  private readonly goTo: (problem: ShownProblem) => void;
  private shown = "";

  constructor(goTo: (problem: ShownProblem) => void) {
    this.goTo = goTo;
  }

  show(problems: readonly ShownProblem[]): void {
    const now = JSON.stringify(problems);
    if (now === this.shown) return;
    this.shown = now;
    this.home.hidden = problems.length === 0;
    this.home.replaceChildren(...problems.map((problem) => this.item(problem)));
  }

  private item(problem: ShownProblem): HTMLElement {
    const item = made("li", "", made("pre", "", problem.text));
    if (problem.line !== undefined) {
      item.append(button(`Go to line ${problem.line}`, () => this.goTo(problem)));
    }
    return item;
  }
}
