// What must hold for every bridge, whatever its numbers: tried on guitars drawn at random, counted by
// outcome.
#pragma once

#include <cstdint>
#include <map>
#include <string>

namespace properties {

// How often each thing came out, and what did not hold.
struct Tally {
    std::map<std::string, long> outcomes;
    std::map<std::string, long> held; // by property
    long broken = 0;
    void count(const std::string& outcome) { ++outcomes[outcome]; }
    // `seed` finds the guitar again. The first of what is broken are printed.
    void check(bool holds, const std::string& property, std::uint64_t seed);
};

// So many balances of random guitars, their claws and attitudes anywhere.
void try_balances(long count, Tally& tally);
// So many whole reports: random guitars, some with readings, some with numbers put anywhere.
void try_reports(long count, Tally& tally);
// The document of one of them, every fourth with readings; some of every fifth are refused.
std::string document_with_readings(std::uint64_t seed);

} // namespace properties
