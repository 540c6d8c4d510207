// Measures stay whole where a line breaks: 5' 11 1/16", 38 3/16", 20 °F, 75 %.
const JOINTS = [[/(\d['"]) (?=\d)/g, "$1\u00a0"], [/(\d) (?=\d+\/\d+)/g, "$1\u00a0"], [/(\d) (?=°[FC]|%)/g, "$1\u00a0"]];

export const glue = (words) => (typeof words === "string" ? JOINTS.reduce((text, [joint, held]) => text.replace(joint, held), words) : words);
