/* exact_units.h - sizes of the inch, the foot, the pound and what follows from them, in SI units. */
#ifndef TEST_EXACT_UNITS_H
#define TEST_EXACT_UNITS_H

/* The international inch and pound and standard gravity, which define these exactly. Written out here, apart
 * from the library's own table of units, so that the tests do not lean on what they test. */
#define INCH 0.0254
#define INCH2 (INCH * INCH)
#define INCH3 (INCH * INCH * INCH)
#define INCH4 (INCH * INCH * INCH * INCH)
#define FOOT 0.3048
#define LBF 4.4482216152605
#define KIP 4448.2216152605
#define KIP_FOOT (KIP * FOOT)
#define KSI (KIP / INCH2)

#endif
