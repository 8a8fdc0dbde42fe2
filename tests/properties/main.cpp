// Random guitars, and what must hold for each. Prints how often each thing came out and how often each
// property held; fails where one did not.
//   counterpull_properties [BALANCES REPORTS]
//   counterpull_properties documents COUNT     prints the documents, as one JSON array, instead
#include "tests/properties/properties.h"

#include <cstdio>
#include <cstdlib>

namespace properties {

void Tally::check(bool holds, const std::string& property, std::uint64_t seed) {
    if (holds) {
        ++held[property];
        return;
    }
    constexpr long most_printed = 20;
    if (++broken <= most_printed)
        std::printf("BROKEN: %s (guitar %llu)\n", property.c_str(), static_cast<unsigned long long>(seed));
}

} // namespace properties

int main(int argc, char** argv) {
    if (argc == 3 && argv[1] == std::string("documents")) {
        for (std::uint64_t seed = 1; seed <= std::strtoull(argv[2], nullptr, 10); ++seed)
            std::printf("%c%s", seed == 1 ? '[' : ',', properties::document_with_readings(seed).c_str());
        std::puts("]");
        return 0;
    }
    const long balances = argc > 1 ? std::atol(argv[1]) : 1'000'000;
    const long reports = argc > 2 ? std::atol(argv[2]) : 10'000;
    properties::Tally tally;
    properties::try_balances(balances, tally);
    properties::try_reports(reports, tally);
    std::printf("outcomes\n");
    for (const auto& [outcome, times] : tally.outcomes)
        std::printf("%10ld  %s\n", times, outcome.c_str());
    std::printf("held\n");
    for (const auto& [property, times] : tally.held)
        std::printf("%10ld  %s\n", times, property.c_str());
    std::printf("%ld broken\n", tally.broken);
    return tally.broken == 0 && !tally.held.empty() ? 0 : 1;
}
