/**
 * Invented readings of the shipped lesson on cobalt and nickel: computed by the model for a column with other numbers
 * (bead 217 µm, D scale 0.46, shrinkage 0.059), with the scatter of ruler, cylinder and watch, and rounded as they are read.
 */
export const EXAMPLE = `delivered_mL,from_mL,flow_mL_per_min,bed_cm,leading_cm,first_colour_mL,last_colour_mL,Co_mmol,NaOH_mL
3,,1.75,6.53,,,,,
12,,1.79,6.52,,,,,
32,,1.56,6.47,1.9,,,,
38,,1.51,,2.8,,,,
44,,1.58,,3.4,,,,
50,,1.57,6.53,3.9,,,,
,,,,,55,,,
56,53,,,,,,0.0388,3.83
60,56,,,,,,0.1399,0.35
,,,,,,59.2,,
65,,3.11,6.82,,,,,
`;
