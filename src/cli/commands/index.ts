import { check } from "./check.ts";
import { claim } from "./claim.ts";
import { compare } from "./compare.ts";
import { estimate } from "./estimate.ts";
import { evidence } from "./evidence.ts";
import { explain } from "./explain.ts";
import { explore } from "./explore.ts";
import { list } from "./list.ts";
import { merge } from "./merge.ts";
import { newStudy } from "./new.ts";
import { organise } from "./organise.ts";
import { report } from "./report.ts";
import { schema } from "./schema.ts";
import { show } from "./show.ts";
import { solve } from "./solve.ts";
import { sources } from "./sources.ts";
import { standby } from "./standby.ts";
import { sweep } from "./sweep.ts";
import { switchCommand } from "./switch.ts";
import { uncertainty } from "./uncertainty.ts";

/** All commands, in the order of the help. A command file holds its options alone and loads its work when it runs. */
export const COMMANDS = [
  newStudy,
  check,
  compare,
  estimate,
  explain,
  claim,
  solve,
  switchCommand,
  uncertainty,
  sweep,
  merge,
  report,
  explore,
  organise,
  evidence,
  standby,
  list,
  show,
  sources,
  schema,
] as const;
