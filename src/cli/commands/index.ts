import { check } from "./check.ts";
import { compare } from "./compare.ts";
import { estimate } from "./estimate.ts";
import { list } from "./list.ts";
import { newStudy } from "./new.ts";
import { schema } from "./schema.ts";
import { show } from "./show.ts";

/** All commands, in the order of the help. A command file holds its options alone and loads its work when it runs. */
export const COMMANDS = [newStudy, check, compare, estimate, list, show, schema] as const;
