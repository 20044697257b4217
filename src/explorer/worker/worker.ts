/** The engine's side of a page: answers one question after the other. */

import { shippedCatalogue } from "../../browser.ts";
import { problemsOf } from "../engine/problems.ts";
import { Session, type SessionSettings } from "../engine/session.ts";
import type { Answer, Answers, Question, Start } from "./messages.ts";

/** What this file uses of a worker's scope. */
declare const self: {
  onmessage: ((event: { readonly data: Start | Question }) => void) | null;
  postMessage(message: unknown): void;
};

let session: Session | undefined;
let settings: SessionSettings;

self.onmessage = ({ data }) => {
  if (data.kind === "start") {
    settings = data.settings;
    session = new Session(shippedCatalogue(), settings);
    if (data.text !== undefined) runUp(data.text);
    return;
  }
  self.postMessage(answered(session!, data));
};

const RUNS = 5;

/** Sessions that remember nothing do all of the work each time. */
function runUp(text: string): void {
  try {
    for (let i = 0; i < RUNS; i++) new Session(shippedCatalogue(), settings).quick(text);
  } catch {
    // What is wrong is answered when it is asked about.
  }
}

function answered(of: Session, question: Question): Answer<keyof Answers> {
  try {
    return { answer: answerTo(of, question) };
  } catch (error) {
    try {
      return { problems: problemsOf(error, settings.file) };
    } catch (bug) {
      return { fault: String(bug instanceof Error ? (bug.stack ?? bug.message) : bug) };
    }
  }
}

function answerTo(of: Session, question: Question): Answers[keyof Answers] {
  const { text } = question;
  switch (question.kind) {
    case "quick": {
      const { pieces, estimate } = of.quick(text);
      return { pieces, values: of.values(estimate, question.readings) };
    }
    case "figures":
      return of.figures(text);
    case "report":
      return of.report(text);
    case "knobs":
      return of.knobs(text);
    case "files":
      return of.files(text);
  }
}
