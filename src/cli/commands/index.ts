import { check } from "./check.ts";
import { claim } from "./claim.ts";
import { compare } from "./compare.ts";
import { estimate } from "./estimate.ts";
import { explain } from "./explain.ts";
import { list } from "./list.ts";
import { newStudy } from "./new.ts";
import { schema } from "./schema.ts";
import { show } from "./show.ts";
import { sources } from "./sources.ts";
import { uncertainty } from "./uncertainty.ts";

/** All commands, in the order of the help. A command file holds its options alone and loads its work when it runs. */
export const COMMANDS = [
  newStudy,
  check,
  compare,
  estimate,
  explain,
  claim,
  uncertainty,
  list,
  show,
  sources,
  schema,
] as const;
