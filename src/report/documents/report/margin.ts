import { type ReadMap, readMap } from "../../../estimate/crossbar/map.ts";
import { formatQuantity } from "../../../quantities/format.ts";
import type { EstimatedDesign } from "../../../studies/estimate.ts";
import { voltageMapSvg } from "../../crossbar-map.ts";
import type { Block } from "../../document/document.ts";
import { heading, paragraph, quantity, text } from "../../document/make.ts";

const STATES = ["on", "off"] as const;
/** Places at which the table gives the map, along each side. */
const PLACES = [0, 1 / 4, 1 / 2, 3 / 4, 1] as const;

/** The solved crossbars of the designs that have one: pictures, and the same as tables. */
export function marginBlocks(designs: readonly EstimatedDesign[]): Block[] {
  const blocks = designs
    .filter(({ broken }) => broken.length === 0)
    .flatMap(({ name, title, model, nominal }) => {
      const { design, program } = model;
      const maps = STATES.flatMap((state) => {
        const map = readMap({ design, program, nominal }, state);
        return map === undefined ? [] : [{ state, map }];
      });
      return maps.length === 0 ? [] : designBlocks(name, title, maps);
    });
  if (blocks.length === 0) return [];
  return [
    heading("The margin of the array"),
    paragraph(
      "The whole network of a tile, solved at the nominal figures while its far corner is read, with the data that " +
        "are worst for that state. Drivers and amplifiers are ideal.",
    ),
    ...blocks,
  ];
}

interface StateMap {
  readonly state: "on" | "off";
  readonly map: ReadMap;
}

function designBlocks(name: string, title: string, maps: readonly StateMap[]): Block[] {
  return [
    ...maps.slice(0, 1).flatMap(({ state, map }): Block[] => [
      {
        kind: "picture",
        name: `${name}_margin`,
        caption: `Voltages across the junctions of ${title} while a cell that is ${state} is read.`,
        alternative: alternativeOf(title, state, map),
        svg: voltageMapSvg({ ...map, title: `${title}: a read of the far corner, ${state}` }),
      },
    ]),
    {
      kind: "table",
      name: `${name}_margin`,
      caption: `Read of the far corner of ${title}`,
      columns: [
        { name: "state", title: "state" },
        { name: "applied", title: "applied", align: "right" },
        { name: "voltage", title: "at the cell", align: "right" },
        { name: "current", title: "through it", align: "right" },
        { name: "sensed", title: "sensed", align: "right" },
        { name: "disturbed", title: "at another cell, most", align: "right" },
      ],
      rows: maps.map(({ state, map }) => [
        text(state),
        quantity("V", map.applied),
        quantity("V", map.voltage),
        quantity("A", map.current),
        quantity("A", map.sensed),
        quantity("V", map.disturbed),
      ]),
    },
    placesTable(name, title, maps[0]!),
  ];
}

/** The map at a few places, for readers of numbers. */
function placesTable(name: string, title: string, { state, map }: StateMap): Block {
  const { rows, columns, voltages } = map;
  const along = (count: number) => [
    ...new Set(PLACES.map((share) => Math.round(share * (count - 1)))),
  ];
  const across = along(columns);
  return {
    kind: "table",
    name: `${name}_margin_places`,
    caption: `Voltages across junctions of ${title} in that read (${state}), by row and column`,
    columns: [
      { name: "row", title: "row", align: "right" },
      ...across.map((j) => ({
        name: `column_${j + 1}`,
        title: `column ${j + 1}`,
        align: "right" as const,
      })),
    ],
    rows: along(rows).map((i) => [
      quantity("1", i + 1),
      ...across.map((j) => quantity("V", voltages[i * columns + j]!)),
    ]),
  };
}

function alternativeOf(title: string, state: string, map: ReadMap): string {
  const volts = (value: number) => formatQuantity({ value }, "V");
  return (
    `${title}, ${map.rows} × ${map.columns} junctions, read of a cell that is ${state}: ` +
    `${volts(map.voltage)} of ${volts(map.applied)} reach the far corner, ` +
    `no other junction has more than ${volts(map.disturbed)}.`
  );
}
