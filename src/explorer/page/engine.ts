/** The workers that compute: what comes first must not wait for what takes longer. */

import type { SessionSettings } from "../engine/session.ts";
import type { Answer, Question, Start } from "../worker/messages.ts";

type Kind = Question["kind"];
type Ask<K extends Kind> = Extract<Question, { kind: K }>;

interface Waiting {
  readonly question: Question;
  readonly done: (answer: Answer<Kind>) => void;
}

/** Asks a worker one thing at a time. A newer question of the same kind takes the place of one that still waits. */
class Line {
  private readonly worker: Worker;
  private readonly order: readonly Kind[];
  private readonly waiting = new Map<Kind, Waiting>();
  private current: Waiting | undefined;

  constructor(worker: Worker, order: readonly Kind[]) {
    this.worker = worker;
    this.order = order;
    worker.onmessage = ({ data }: MessageEvent<Answer<Kind>>) => {
      this.answer(data);
    };
    worker.onerror = ({ message }) => {
      this.answer({ fault: message || "the worker did not start" });
    };
  }

  ask(question: Question, done: Waiting["done"]): void {
    this.waiting.set(question.kind, { question, done });
    this.next();
  }

  private answer(answer: Answer<Kind>): void {
    const { current } = this;
    this.current = undefined;
    this.next();
    current?.done(answer);
  }

  private next(): void {
    if (this.current !== undefined) return;
    const kind = this.order.find((one) => this.waiting.has(one));
    if (kind === undefined) return;
    this.current = this.waiting.get(kind)!;
    this.waiting.delete(kind);
    this.worker.postMessage(this.current.question);
  }
}

/** What each worker answers, the most urgent first. */
const ORDERS: readonly (readonly Kind[])[] = [["quick"], ["figures", "knobs"], ["files", "report"]];

export class Engine {
  private readonly lines: readonly Line[];

  /** @param script the workers' own, as text @param text the study to run up on */
  constructor(script: string, settings: SessionSettings, text: string) {
    const address = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
    const started = (start: Start): Worker => {
      const worker = new Worker(address);
      worker.postMessage(start);
      return worker;
    };
    this.lines = ORDERS.map(
      (order, i) => new Line(started({ kind: "start", settings, ...(i === 0 && { text }) }), order),
    );
  }

  /** Asks, and calls `done` unless a newer question of the kind came in between. */
  ask<K extends Kind>(question: Ask<K>, done: (answer: Answer<K>) => void): void {
    const line = this.lines[ORDERS.findIndex((order) => order.includes(question.kind))]!;
    line.ask(question, done as Waiting["done"]);
  }
}

/** The workers' script out of the page, where it lies deflated. */
export async function scriptFrom(base64: string): Promise<string> {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  return new Response(stream).text();
}
