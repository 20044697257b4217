/** The page's own script: text, sliders and figures that follow each other. */

import type { ShownProblem } from "../engine/problems.ts";
import type { SessionSettings } from "../engine/session.ts";
import type { Knob } from "../knobs/knob.ts";
import { turned } from "../knobs/scale.ts";
import { History, type Version } from "../text/history.ts";
import { holdsStudy, studyOf } from "../text/share.ts";
import type { Answer, Answers } from "../worker/messages.ts";
import { byId } from "./dom.ts";
import { Editor } from "./editor.ts";
import { Engine, scriptFrom } from "./engine.ts";
import { Problems } from "./problems.ts";
import { Result } from "./result.ts";
import { download, SaveMenu } from "./save.ts";
import { openShare } from "./share.ts";
import { type Moment, Sliders } from "./sliders.ts";

interface PageData extends SessionSettings {
  readonly text: string;
}

/** Sliders are chosen anew when the text has been left alone for so long. */
const SETTLED = 1500;
/** The whole report is made anew when the text has been left alone for so long. */
const REST = 300;
/** What takes longer is announced. */
const PATIENCE = 1000;
const TYPING = "typing";

/** Answers about one text, in the order in which they come. */
const STAGES = ["quick", "figures", "report"] as const;
type Stage = (typeof STAGES)[number];

class Page {
  private readonly data: PageData;
  private readonly engine: Engine;
  private readonly history: History;
  private readonly editor = new Editor(({ timeStamp }) => this.typed(timeStamp));
  private readonly result = new Result();
  private readonly problems = new Problems((problem) => this.editor.goTo(problem));
  private readonly sliders = new Sliders((knob, value, moment) => this.turn(knob, value, moment));
  private readonly saving = new SaveMenu();
  private readonly undo = byId<HTMLButtonElement>("undo");
  private readonly redo = byId<HTMLButtonElement>("redo");
  private wrong: readonly ShownProblem[] = [];
  private wrongAt: Stage = "quick";
  private settling: ReturnType<typeof setTimeout> | undefined;
  private waiting: ReturnType<typeof setTimeout> | undefined;
  private resting: ReturnType<typeof setTimeout> | undefined;

  constructor(data: PageData, script: string) {
    this.data = data;
    const { text, ...settings } = data;
    this.engine = new Engine(script, settings, text);
    this.history = new History({ text: data.text, start: 0, end: 0 });
    this.editor.show(data.text);
    this.undo.addEventListener("click", () => this.travel(this.history.undo()));
    this.redo.addEventListener("click", () => this.travel(this.history.redo()));
    document.addEventListener("keydown", (event) => this.key(event));
    byId("save").addEventListener("toggle", () => this.listFiles());
    byId("share").addEventListener("toggle", () => openShare(this.editor.text));
    for (const menu of document.querySelectorAll<HTMLDetailsElement>("details.menu")) {
      closesAway(menu);
    }
    window.addEventListener("hashchange", () => void this.openLink());
    this.buttons();
    void this.openLink().then(() => this.begin());
  }

  private get text(): string {
    return this.history.current.text;
  }

  /** A study that the address brings along. */
  private async openLink(): Promise<void> {
    if (!holdsStudy(location.hash)) return;
    const text = await studyOf(location.hash);
    if (text === undefined) {
      this.say("The link holds no study that can be read: it was cut or changed.");
      return;
    }
    this.put({ text, start: 0, end: 0 }, "link", { time: 0, gesture: Number.NaN });
    this.chooseKnobs();
  }

  /** The page was made with the report of its own text: nothing is computed before something changes. */
  private begin(): void {
    if (this.text !== this.data.text) return;
    this.done();
    this.chooseKnobs();
  }

  private done(): void {
    this.result.busy(false);
    this.say("The figures follow the text.");
  }

  private typed(time: number): void {
    const { text, selection } = this.editor;
    this.history.change({ text, ...selection }, TYPING, time);
    this.editor.draw();
    this.buttons();
    this.compute();
    clearTimeout(this.settling);
    this.settling = setTimeout(() => this.chooseKnobs(), SETTLED);
  }

  private turn(knob: Knob, value: number, moment: Moment): void {
    const before = this.text;
    let text = before;
    try {
      text = turned(knob, before, value);
    } catch {
      // A text that is no YAML has no place for a value; the list of mistakes says so already.
      return;
    }
    const { start, end } = this.editor.selection;
    this.put({ text, start, end }, knob.id, moment);
    this.editor.reveal(firstDifference(before, text));
  }

  /** Shows a text that was not typed. */
  private put(version: Version, origin: string, { time, gesture }: Moment): void {
    this.history.change(version, origin, time, gesture);
    this.editor.show(version.text, version.start, version.end);
    this.buttons();
    this.compute();
  }

  private travel(version: Version | undefined): void {
    if (version === undefined) return;
    const before = this.editor.text;
    this.editor.show(version.text, version.start, version.end);
    this.editor.reveal(firstDifference(before, version.text));
    this.buttons();
    this.compute();
  }

  private key(event: KeyboardEvent): void {
    if (event.key === "Escape") {
      for (const menu of document.querySelectorAll<HTMLDetailsElement>("details.menu[open]")) {
        menu.open = false;
        menu.querySelector("summary")!.focus();
      }
    }
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const letter = event.key.toLowerCase();
    const back = letter === "z" && !event.shiftKey;
    const again = letter === "y" || (letter === "z" && event.shiftKey);
    if (!back && !again) return;
    event.preventDefault();
    this.travel(back ? this.history.undo() : this.history.redo());
  }

  private buttons(): void {
    // A disabled button would lose the focus of who works with the keyboard.
    this.undo.setAttribute("aria-disabled", String(!this.history.canUndo));
    this.redo.setAttribute("aria-disabled", String(!this.history.canRedo));
  }

  private compute(): void {
    const { text } = this;
    const { readings } = this.sliders;
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => this.say("Computing …"), PATIENCE);
    this.result.busy(true);
    this.engine.ask({ kind: "quick", text, readings }, (answer) => {
      if (!this.isFine("quick", text, answer)) return;
      this.result.quick(answer.answer.pieces);
      if (readings.length === this.sliders.readings.length) this.sliders.set(answer.answer.values);
    });
    this.engine.ask({ kind: "figures", text }, (answer) => {
      if (this.isFine("figures", text, answer)) this.result.figures(answer.answer);
    });
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.report(text), REST);
  }

  /** All of the report, when nothing was written for a while: it takes longer. */
  private report(text: string): void {
    this.engine.ask({ kind: "report", text }, (answer) => {
      if (!this.isFine("report", text, answer)) return;
      this.result.report(answer.answer);
      this.done();
    });
  }

  /** Whether an answer holds what was asked for, about the text that is there now. Says what is wrong. */
  private isFine<K extends Stage>(
    stage: K,
    text: string,
    answer: Answer<K>,
  ): answer is { readonly answer: Answers[K] } {
    if ("fault" in answer) {
      this.failed(answer.fault);
      return false;
    }
    if (text !== this.text) return false;
    // A mistake that only a later stage finds stays until that stage is through.
    const problems = "problems" in answer ? answer.problems : [];
    if (problems.length > 0 || STAGES.indexOf(stage) >= STAGES.indexOf(this.wrongAt)) {
      this.refused(problems);
      this.wrongAt = problems.length > 0 ? stage : "quick";
    }
    return "answer" in answer;
  }

  private refused(problems: readonly ShownProblem[]): void {
    const changed = JSON.stringify(problems) !== JSON.stringify(this.wrong);
    this.wrong = problems;
    if (changed) {
      this.problems.show(problems);
      this.editor.mark(problems);
    }
    if (problems.length === 0) return;
    this.result.old(true);
    this.result.busy(false);
    const count = problems.length === 1 ? "1 mistake" : `${problems.length} mistakes`;
    this.say(`${count}. The figures are of the text before.`);
  }

  private chooseKnobs(): void {
    const { text } = this;
    this.engine.ask({ kind: "knobs", text }, (answer) => {
      if ("fault" in answer) return this.failed(answer.fault);
      if ("problems" in answer || text !== this.text) return;
      this.sliders.show(answer.answer);
      const { readings } = this.sliders;
      this.engine.ask({ kind: "quick", text, readings }, (again) => {
        if ("answer" in again && text === this.text) this.sliders.set(again.answer.values);
      });
    });
  }

  private listFiles(): void {
    if (!byId<HTMLDetailsElement>("save").open) return;
    const { text } = this;
    this.engine.ask({ kind: "files", text }, (answer) => {
      const files = "answer" in answer ? answer.answer : new Map<string, string>();
      this.saving.show([...files.keys()], this.data.file, (path) => {
        if (path === undefined) download(this.data.file, this.text);
        else download(path.split("/").at(-1)!, files.get(path)!);
      });
    });
  }

  private failed(fault: string): void {
    this.result.old(true);
    this.result.busy(false);
    this.say(`The page failed, which is a mistake of its makers: ${fault}`);
  }

  private say(text: string): void {
    clearTimeout(this.waiting);
    const state = byId("state");
    if (state.textContent !== text) state.textContent = text;
  }
}

/** The first line that two texts do not share, from 1. */
function firstDifference(before: string, after: string): number {
  const [old, now] = [before.split("\n"), after.split("\n")];
  const at = now.findIndex((line, i) => line !== old[i]);
  return at < 0 ? 1 : at + 1;
}

/** A menu closes when the focus or a click goes elsewhere. */
function closesAway(menu: HTMLDetailsElement): void {
  document.addEventListener("click", ({ target }) => {
    if (!menu.contains(target as Node)) menu.open = false;
  });
  menu.addEventListener("focusout", ({ relatedTarget }) => {
    if (relatedTarget !== null && !menu.contains(relatedTarget as Node)) menu.open = false;
  });
}

/** Without what it needs a browser shows the report alone. */
async function start(): Promise<void> {
  if (!("DecompressionStream" in window && "Worker" in window)) return;
  const data = JSON.parse(byId("data").textContent!) as PageData;
  const script = await scriptFrom(byId("engine").textContent!.trim());
  byId("study").hidden = false;
  byId("skip").hidden = false;
  document.documentElement.classList.add("live");
  new Page(data, script);
}

void start();
