import { hashOf, LONGEST_ADDRESS } from "../text/share.ts";
import { byId } from "./dom.ts";

/** Fills the menu with the address that holds the study. */
export async function openShare(text: string): Promise<void> {
  if (!byId<HTMLDetailsElement>("share").open) return;
  const field = byId<HTMLInputElement>("link");
  const copy = byId<HTMLButtonElement>("copy");
  const hash = await hashOf(text);
  const address = location.href.replace(/#.*$/s, "") + hash;
  const fits = address.length <= LONGEST_ADDRESS;
  field.value = fits ? address : "";
  field.hidden = !fits;
  copy.hidden = !fits;
  if (!fits) return say("The study is too long for an address. Save it as a file.");
  say("Whoever has this page opens the study with this address.");
  field.onfocus = () => field.select();
  copy.onclick = () => void copied(field);
}

async function copied(field: HTMLInputElement): Promise<void> {
  try {
    await navigator.clipboard.writeText(field.value);
    say("Copied.");
  } catch {
    // A page from disk may not write there in every browser.
    field.focus();
    field.select();
    say("Selected: copy it with Ctrl C.");
  }
}

function say(text: string): void {
  byId("shared").textContent = text;
}
