// Short scores in MEI, for tests.

export function mei(
  measures: string,
  definition = '<scoreDef meter.count="4" meter.unit="4"><staffGrp><staffDef n="1" label="Horn" lines="5"/></staffGrp></scoreDef>',
): string {
  return `<?xml version="1.0" encoding="UTF-8"?>
<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt><title>Test</title></titleStmt></fileDesc></meiHead>
<music><body><mdiv><score>${definition}<section>${measures}</section></score></mdiv></body></music></mei>`;
}

export function measure(layer: string, behind = '', attributes = ''): string {
  return `<measure ${attributes}><staff n="1"><layer n="1">${layer}</layer></staff>${behind}</measure>`;
}

export const note = (id: string, pname: string, dur = '4', more = '') =>
  `<note xml:id="${id}" pname="${pname}" oct="4" dur="${dur}" ${more}/>`;
