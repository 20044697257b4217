import { list } from "./list.ts";
import { show } from "./show.ts";

/** All commands, in the order of the help. A command file holds its options alone and loads its work when it runs. */
export const COMMANDS = [list, show] as const;
