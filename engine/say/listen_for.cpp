#include "engine/say/listen_for.h"

#include "engine/document/model.h"

namespace counterpull {

std::vector<StringTarget> targets_of(const Setup& setup, Which which,
                                     const std::vector<double>& expected_cents, Problems& problems) {
    const bool now = which == Which::now;
    const std::string_view path = now ? "now.tuning" : "next.tuning";
    if (now && (setup.now.strings.empty() || setup.now.tuning.empty())) {
        problems.add(path, {"refused.missing"});
        return {};
    }
    const Assembly assembly =
        assembly_of(setup, now ? fitting_now(setup) : fitting_next(setup, setup.now.springs));
    check_pitches(assembly, path, problems);
    if (!problems.none())
        return {};
    std::vector<StringTarget> targets;
    for (const StringOnBridge& string : assembly.strung()) {
        StringTarget target;
        target.hz = string.frequency_hz;
        target.expected = !expected_cents.empty();
        if (target.expected)
            target.expected_cents = expected_cents[targets.size()];
        const double tension_n = tension_at_pitch_n(string.mechanics, string.frequency_hz, string.scale_m);
        target.inharmonicity = inharmonicity(string.mechanics, tension_n, string.scale_m);
        targets.push_back(target);
    }
    return targets;
}

} // namespace counterpull
