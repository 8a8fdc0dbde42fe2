// What the browser's own Intl (Unicode CLDR) says of numbers and lists, for words_test and plurals_test:
//   node intl_table.mjs en-GB de …
// One line each, with tabs between: "plural", locale, number as said, category; "list", locale, things, joined.
const whole = [...Array(203).keys(), 999, 1000, 1001, 1002, 1012, 1021, 1111, 1000000, 1000001, 2000000, 3000002];
const digits = [1, 2, 3];
const decimals = [0, 0.1, 0.11, 0.2, 0.5, 0.75, 1, 1.01, 1.1, 1.21, 1.5, 2, 2.25, 3.14, 5, 10, 11.11, 12, 21, 22.22, 100.5, 1000000.5];
const lists = [["1"], ["1", "3"], ["1", "3", "5"], ["1", "2", "4", "5"]];
for (const locale of process.argv.slice(2)) {
  const rules = new Intl.PluralRules(locale);
  for (const n of whole) console.log(["plural", locale, n, rules.select(n)].join("\t"));
  for (const d of digits) {
    const said = new Intl.PluralRules(locale, { minimumFractionDigits: d, maximumFractionDigits: d });
    for (const n of decimals) console.log(["plural", locale, n.toFixed(d), said.select(n)].join("\t"));
  }
  const format = new Intl.ListFormat(locale, { type: "conjunction", style: "long" });
  for (const things of lists) console.log(["list", locale, things.join(" "), format.format(things)].join("\t"));
}
