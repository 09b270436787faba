/* test_resolve_faults_unknown.c - faults of unknowns and correlations, each with its place and words. */
#include "resolve_rows.h"

#define ADD(text) "rating = {", "unknowns = ( { name = \"u\"; " text " } );\nrating = {"
#define SEAM(text) ADD("path = \"bridge.joints.seam.shear\"; " text)
#define FY(text) ADD("path = \"steels.car steel.fy\"; " text)

static const fault_row paths[] = {
    {ADD("low = \"1 in\"; high = \"2 in\";"),
     "77: unknowns.u: it is not said which key is unknown; path, or paths for several keys, is due"},
    {ADD("path = \"bridge.joints.seem.shear\"; low = \"1 in\"; high = \"2 in\";"),
     "77: unknowns.u.path: \"bridge.joints.seem.shear\": no item is called \"seem\"; did you mean \"seam\"?"},
    {ADD("path = \"bridge.joints.seam.sheer\"; low = \"1 in\"; high = \"2 in\";"),
     "77: unknowns.u.path: \"bridge.joints.seam.sheer\": \"sheer\": unknown key; did you mean shear?"},
    {ADD("path = \"bridge.joints.seam\"; low = \"1 in\"; high = \"2 in\";"),
     "77: unknowns.u.path: \"bridge.joints.seam\": the path ends at a group; one of its keys is due"},
    {ADD("path = \"title\"; values = \"a, b\";"), "77: unknowns.u.path: \"title\" changes no rating"},
    {ADD("path = \"steels.plate.name\"; values = \"a, b\";"),
     "77: unknowns.u.path: \"steels.plate.name\" is a name, which cannot be unknown"},
    {ADD("path = \"bridge.joints.bolts.connectors\"; low = \"1 ft\"; high = \"2 ft\";"),
     "77: unknowns.u.path: \"bridge.joints.bolts.connectors\" holds a list; an unknown changes one value"},
    {ADD("paths = [ \"steels.car steel.fy\", \"steels.plate.E\", \"bridge.bearings.ends.gap\" ]; low = \"30 "
         "ksi\"; high = \"40 ksi\";"),
     "77: unknowns.u.paths: \"steels.car steel.fy\" and \"bridge.bearings.ends.gap\" cannot have the same "
     "value; paths of one unknown are of one kind"},
    {ADD("path = \"bridge.bearings.ends.gap\"; low = \"0 in\"; high = \"1 in\"; }, { name = \"v\"; paths = [ "
         "\"bridge.bearings.trucks.gap\", \"bridge.bearings.ends.gap\" ]; low = \"0 in\"; high = \"1 in\";"),
     "77: unknowns.v.paths: \"bridge.bearings.ends.gap\" is changed by the unknown \"u\" already; a key has "
     "one "
     "unknown"},
    {ADD("path = \"bridge.bearings.ends.gap\"; low = \"0 in\"; high = \"1 in\"; }, { name = \"u\"; path = "
         "\"bridge.bearings.trucks.gap\"; low = \"0 in\"; high = \"1 in\";"),
     "77: unknowns.u.name: \"u\" is the name of another item of this list, at line 77; each name is given "
     "once"},
};

static const fault_row rivals[] = {
    {ADD("path = \"steels.car steel.fy\"; low = \"30 ksi\"; high = \"40 ksi\"; }, { name = \"v\"; path = "
         "\"steels.car steel.year_built\"; low = 1940; high = 1960;"),
     "77: unknowns.v.path: \"steels.car steel.year_built\" takes the place of \"steels.car steel.fy\"; one "
     "of "
     "them can be unknown"},
};

static const fault_row ranges[] = {
    {SEAM(""),
     "77: unknowns.u: it is not said what it can be; low and high, values or a distribution are due"},
    {SEAM("low = \"0.1 kip/in/in\";"), "77: unknowns.u.high: not given; a range goes from low to high"},
    {SEAM("low = \"0.1 kip/in/in\"; high = \"1 ksii\";"),
     "77: unknowns.u.high: \"ksii\" is not a known unit; did you mean \"ksi\"?"},
    {SEAM("low = 0.1; high = \"1 kip/in/in\";"),
     "77: unknowns.u.low: 0.1 has no unit; a spring stiffness per length is due, such as \"0.3 kip/in/in\""},
    {SEAM("low = \"1 kip/in/in\"; high = \"0.1 kip/in/in\";"),
     "77: unknowns.u.high: 0.1 kip/in per in does not lie above low, 1 kip/in per in"},
    {SEAM("low = \"0 kip/in/in\"; high = \"1 kip/in/in\"; scale = \"log\";"),
     "77: unknowns.u.scale: a log scale begins above 0, and low is 0 kip/in per in"},
    {SEAM("low = \"-1 kip/in/in\"; high = \"1 kip/in/in\";"),
     "77: unknowns.u.low: \"-1 kip/in/in\" is below the least allowed, 0 kip/in/in"},
    {SEAM("low = \"0 kip/in/in\"; high = \"1 kip/in/in\"; mode = \"1 kip/in/in\";"),
     "77: unknowns.u.mode: does not belong to a range; it has low, high and scale"},
    {ADD("path = \"sections.sill.torsion\"; low = \"closed\"; high = \"open\";"),
     "77: unknowns.u.low: \"sections.sill.torsion\" is no number and has no range; its values one by one are "
     "due, values = \"..., ...\""},
    {ADD("path = \"bridge.bearings.ends.spring\"; low = \"rigid\"; high = \"300 kip/in\";"),
     "77: unknowns.u.low: \"rigid\" does not begin with a number; a spring stiffness is due, such as 200 "
     "kip/in"},
    {ADD("path = \"rating.adtt\"; low = 5; high = 7.5;"),
     "77: unknowns.u.high: found 7.5; a whole number without quotes is due"},
    {ADD("path = \"rating.system\"; low = 0.85; high = { };"),
     "77: unknowns.u.high: found a group; one value is due, such as \"36 ksi\" or 0.85"},
};

static const fault_row distributions[] = {
    {FY("mean = \"42 ksi\"; sd = \"3 ksi\";"),
     "77: unknowns.u.distribution: not given; a mean belongs to \"normal\" or \"lognormal\""},
    {FY("distribution = \"norm\"; mean = \"42 ksi\"; sd = \"3 ksi\";"),
     "77: unknowns.u.distribution: found \"norm\"; one of \"uniform\", \"normal\", \"lognormal\", "
     "\"triangular\", \"discrete\" is due; did you mean \"normal\"?"},
    {FY("distribution = \"normal\"; sd = \"3 ksi\";"),
     "77: unknowns.u.mean: not given; it has a mean and a standard deviation"},
    {FY("distribution = \"normal\"; mean = \"42 ksi\";"),
     "77: unknowns.u.sd: not given; the standard deviation is due, or cov as a share of the mean"},
    {FY("distribution = \"normal\"; mean = \"42 ksi\"; sd = \"3 ksi\"; cov = 0.1;"),
     "77: unknowns.u.sd: both sd and cov are given; one of them is due"},
    {FY("distribution = \"normal\"; mean = \"42 ksi\"; sd = \"0 ksi\";"),
     "77: unknowns.u.sd: the standard deviation would not be above 0"},
    {FY("distribution = \"lognormal\"; mean = \"-42 ksi\"; sd = \"3 ksi\";"),
     "77: unknowns.u.mean: -42 ksi; the mean of a lognormal distribution is above 0"},
    {FY("distribution = \"normal\"; mean = \"42 ksi\"; cov = 0.3;"),
     "77: unknowns.u.low: not given; the distribution reaches below the least allowed, > 0 ksi"},
    {ADD("path = \"rating.system\"; distribution = \"normal\"; mean = 0.9; sd = 0.05;"),
     "77: unknowns.u.high: not given; the distribution reaches above the most allowed, 1"},
    {FY("distribution = \"normal\"; mean = \"42 ksi\"; cov = 0.1; low = \"90 ksi\";"),
     "77: unknowns.u.low: next to nothing of the distribution is left between low and high"},
    {FY("distribution = \"triangular\"; low = \"24 ksi\"; high = \"50 ksi\";"),
     "77: unknowns.u.mode: not given; a triangular distribution has low, mode and high"},
    {FY("distribution = \"triangular\"; low = \"24 ksi\"; high = \"50 ksi\"; mode = \"51 ksi\";"),
     "77: unknowns.u.mode: 51 ksi lies outside low and high, 24 ksi to 50 ksi"},
};

static const fault_row lists[] = {
    {ADD("path = \"sections.sill.torsion\"; values = \"closed, opened\";"),
     "77: unknowns.u.values: found \"opened\"; one of \"closed\", \"open\", \"battened\" is due; did you "
     "mean "
     "\"open\"?"},
    {ADD("path = \"sections.sill.torsion\"; values = \"closed\";"),
     "77: unknowns.u.values: found one value; two or more are due, what is known needs no entry"},
    {ADD("path = \"sections.sill.torsion\"; values = \"closed, closed\";"),
     "77: unknowns.u.values: \"closed\" stands twice; once is enough"},
    {ADD("path = \"sections.sill.torsion\"; values = \"closed, open\"; weights = [ 1, 2, 3 ];"),
     "77: unknowns.u.weights: found 3 for 2 values; each value has one"},
    {ADD("path = \"sections.sill.torsion\"; values = \"closed, open\"; weights = [ 1, -2 ];"),
     "77: unknowns.u.weights: one of them is below 0; a weight is 0 or more"},
    {ADD("path = \"sections.sill.torsion\"; values = \"closed, open\"; weights = [ 0, 0 ];"),
     "77: unknowns.u.weights: all 2 are 0; one of 2 at least is due above 0"},
    {ADD("path = \"sections.sill.torsion\"; distribution = \"discrete\";"),
     "77: unknowns.u.values: not given; values one by one are due, such as \"closed, open\""},
    {ADD("path = \"bridge.bearings.ends.gap\"; values = \"0, 1/2, 101 in\";"),
     "77: unknowns.u.values: \"2.5653999999999999 m\" is above the most allowed, 100 in"},
    {ADD("path = \"rating.adtt\"; values = \"5, many\";"),
     "77: unknowns.u.values: found \"many\"; a whole number without quotes is due"},
};

#define PAIR                                                                                                 \
    "unknowns = ( { name = \"a\"; path = \"steels.car steel.fy\"; distribution = \"normal\"; mean = \"42 "   \
    "ksi\"; cov = 0.1; }, { name = \"b\"; path = \"steels.plate.fy\"; distribution = \"uniform\"; low = "    \
    "\"50 "                                                                                                  \
    "ksi\"; high = \"60 ksi\"; }, { name = \"c\"; path = \"rating.system\"; distribution = \"uniform\"; "    \
    "low "                                                                                                   \
    "= 0.85; high = 1; }, { name = \"d\"; path = \"bridge.bearings.ends.gap\"; low = \"0 in\"; high = \"1 "  \
    "in\"; } );\n"
#define JOIN(text) "rating = {", PAIR "correlations = ( " text " );\nrating = {"

static const fault_row correlations[] = {
    {JOIN("{ between = [ \"a\", \"bb\" ]; rho = 0.5; }"),
     "78: correlations.1.between: no unknown is called \"bb\"; there are \"a\", \"b\", \"c\", \"d\""},
    {JOIN("{ between = [ \"a\", \"d\" ]; rho = 0.5; }"),
     "78: correlations.1.between: \"d\" has no distribution; give one, such as distribution = \"uniform\""},
    {JOIN("{ between = [ \"a\" ]; rho = 0.5; }"), "78: correlations.1.between: found 1 names; two are due"},
    {JOIN("{ between = [ \"a\", \"b\" ]; rho = 1; }"),
     "78: correlations.1.rho: 1 is above the most allowed, < 1"},
    {JOIN("{ between = [ \"a\", \"b\" ]; rho = 0.5; }, { between = [ \"b\", \"a\" ]; rho = 0.6; }"),
     "78: correlations.2.between: these two have a correlation already; a pair has one"},
    {JOIN("{ between = [ \"a\", \"b\" ]; rho = 0.9; }, { between = [ \"a\", \"c\" ]; rho = 0.9; }, { between "
          "= [ \"b\", \"c\" ]; rho = -0.9; }"),
     "78: correlations: the correlations of \"c\" contradict those of the unknowns before it (the matrix is "
     "not "
     "positive definite): where a goes with b and b with c, a and c are not free; bring some nearer to 0, or "
     "give the missing ones"},
};

/* Two at once are both said. */
static const fault_row several[] = {
    {ADD("path = \"bridge.joints.seem.shear\"; low = \"1 in\"; high = \"2 in\"; }, { name = \"v\"; path = "
         "\"rating.system\"; low = 0.9; high = 0.8;"),
     "77: unknowns.u.path: \"bridge.joints.seem.shear\": no item is called \"seem\"; did you mean \"seam\"?\n"
     "77: unknowns.v.high: 0.8 does not lie above low, 0.9"},
};

/* What the sample itself gives cause for. */
#define CELL                                                                                                 \
    "5: sections.sill.torsion: the cell counts as closed, J = 2171 in4; the load share between cars hangs "  \
    "on "                                                                                                    \
    "it, and a cell that is open below or only battened shares less\n"

static const fault_row warnings[] = {
    {SEAM("low = \"0.001 kip/in/in\"; high = \"0.1 kip/in/in\"; scale = \"log\";"), CELL
     "77: unknowns.u: 0.3 kip/in per in is described, which lies outside the range 0.001 kip/in per in to "
     "0.1 "
     "kip/in per in"},
    {FY("low = \"20 ksi\"; high = \"50 ksi\";"),
     CELL "77: unknowns.u.low: \"20 ksi\" is unlikely; usual are 24 ksi to 110 ksi"},
};

static void test_paths(void) {
    check_rows(paths, ENTRIES(paths), SS_FAULT);
    check_rows(rivals, ENTRIES(rivals), SS_FAULT);
}

static void test_ranges(void) {
    check_rows(ranges, ENTRIES(ranges), SS_FAULT);
}

static void test_distributions(void) {
    check_rows(distributions, ENTRIES(distributions), SS_FAULT);
}

static void test_lists(void) {
    check_rows(lists, ENTRIES(lists), SS_FAULT);
}

static void test_correlations(void) {
    check_rows(correlations, ENTRIES(correlations), SS_FAULT);
    check_rows(several, ENTRIES(several), SS_FAULT);
}

static void test_warnings(void) {
    check_rows(warnings, ENTRIES(warnings), SS_WARNING);
}

int main(void) {
    static const test_case cases[] = {
        {"paths", test_paths},
        {"ranges", test_ranges},
        {"distributions", test_distributions},
        {"lists", test_lists},
        {"correlations", test_correlations},
        {"warnings", test_warnings},
    };
    return RUN_SUITE("faults of unknowns", cases);
}
