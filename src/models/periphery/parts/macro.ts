/** The parts of banks and of the whole macro. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { clock } from "../macro/clock.ts";
import {
  addressLatch,
  bankControl,
  dataLatch,
  macroControl,
  outputDriver,
  refreshControl,
} from "../macro/control.ts";
import { decoderOfMultiple, decoderOfSingle, encoder } from "../macro/correction.ts";
import { dieEdges, dieInterface, dieRails, dieSupplies, dieTest, pads } from "../macro/die.ts";
import { chargePump, erasePump, regulator, rowPump } from "../macro/pump.ts";
import { route } from "../macro/route.ts";
import type { PartUse, Structure } from "../structure.ts";
import { verifyLogic } from "../tile/write.ts";

/** Control, refresh, program-and-verify, supplies, routing, latches, outputs, error correction. */
export function macroParts(structure: Structure): PartUse[] {
  const { correction, verify, refresh, writeSupply } = structure;
  // The leak of a crossbar's selected row is shared by the cells that are written on it.
  const shared = structure.bias === undefined ? {} : { write_current: "shared_write_current" };
  const supplies = { core: [], "input-output": [plainRegulator], pump: pump(structure) };
  return [
    { ...one("bank control", bankControl, "none"), level: "bank" },
    one("macro control", macroControl, "none"),
    ...(refresh ? [one("refresh control", refreshControl, "none")] : []),
    ...(verify ? [verifying(structure)] : []),
    ...supplies[writeSupply].map((use) => ({ ...use, bind: { ...use.bind, ...shared } })),
    ...furtherPumps(structure),
    one("route", route, "both"),
    { ...one("clock", clock, "none"), bind: { way: "route_length" } },
    one("address latch", addressLatch, "both"),
    one("data latch", dataLatch, "none"),
    one("output driver", outputDriver, "read"),
    ...(correction === "none" ? [] : [one("correction encoder", encoder, "write"), decoding()]),
    ...(structure.die ? dieParts : []),
  ];

  function decoding(): PartUse {
    const of = correction === "multiple" ? decoderOfMultiple : decoderOfSingle;
    return one("correction decoder", of, "read");
  }
}

/** One instance in the macro, used by every access. */
function one(name: string, sheet: Sheet, path: "read" | "write" | "both" | "none"): PartUse {
  return {
    name,
    prefix: `${name.replaceAll(" ", "_")}_`,
    sheet,
    level: "macro",
    count: "1",
    activeRead: "1",
    activeWrite: "1",
    onReadPath: path === "read" || path === "both",
    onWritePath: path === "write" || path === "both",
  };
}

/** Of cells of several bits, what was read is compared with what was wanted bit by bit. */
function verifying({ levels }: Structure): PartUse {
  const bind = levels && { cells_written: "level_bits_written" };
  return { ...one("verify logic", verifyLogic, "none"), ...(bind && { bind }) };
}

const plainRegulator: PartUse = {
  ...one("write regulator", regulator, "none"),
  bind: { pump_supply: "io_supply" },
};

/** Pumps beside that of the write current: for rows beyond every supply, for erasures. */
function furtherPumps(structure: Structure): PartUse[] {
  const { rowSupply, erasedByBlock = false, pumpFrom = "core" } = structure;
  const bind = { pump_supply: pumpFrom === "core" ? "supply" : "io_supply" };
  return [
    ...(rowSupply === "pump" ? [{ ...one("row pump", rowPump, "none"), bind }] : []),
    ...(erasedByBlock ? [{ ...one("erase pump", erasePump, "none"), bind }] : []),
  ];
}

function pump({ pumpFrom = "core" }: Structure): PartUse[] {
  const feed = pumpFrom === "core" ? "supply" : "io_supply";
  return [
    { ...one("charge pump", chargePump, "write"), bind: { pump_supply: feed } },
    // The pump's loss factor already counts the headroom of the regulator behind it.
    {
      ...one("write regulator", regulator, "none"),
      bind: { pump_supply: "charge_pump_target_voltage" },
      activeWrite: "0",
    },
  ];
}

/** What a die adds to its macro. */
const dieParts: readonly PartUse[] = [
  one("pads", pads, "both"),
  one("die interface", dieInterface, "none"),
  one("die test", dieTest, "none"),
  {
    ...one("die supplies", dieSupplies, "none"),
    // What leaks hangs on the supplies' own pass devices, and is little beside an access.
    bind: { whole_read_energy: "active_read_energy", whole_write_energy: "active_write_energy" },
  },
  one("die rails", dieRails, "none"),
  one("die edges", dieEdges, "none"),
];
