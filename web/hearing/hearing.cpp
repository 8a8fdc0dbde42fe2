// Hearing as a program of its own, run by a Worker of the page (hearing_worker.js). Numbers go in and out by
// memory: the caller writes into `hearing_targets` and `hearing_samples`, and reads what `hearing_told`
// points at.
#include "engine/hearing/listener.h"
#include "engine/mechanics/bridge.h"

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

namespace {

using namespace counterpull;

constexpr std::size_t most_samples = 4096;
constexpr std::size_t numbers_of_a_target = 4, numbers_first = 6, numbers_of_a_string = 6;

std::array<double, numbers_of_a_target * most_strings> targets;
std::array<float, most_samples> samples;
std::array<double, numbers_first + 2 * numbers_of_a_string * most_strings> told;
std::optional<Listener> listener;
double loudest = 0.0; // since it was told last

std::vector<StringTarget> targets_given(int count) {
    std::vector<StringTarget> all;
    for (std::size_t i = 0; i < static_cast<std::size_t>(std::min(count, most_strings)); ++i) {
        const double* one = &targets[numbers_of_a_target * i];
        all.push_back({one[0], one[1], one[2] != 0.0, one[3]});
    }
    return all;
}

double* tell(double* place, const std::vector<HeardString>& strings) {
    for (const HeardString& string : strings) {
        const double numbers[] = {string.heard ? 1.0 : 0.0, string.hz,   string.cents,
                                  string.sigma_cents,       string.at_s, string.steady ? 1.0 : 0.0};
        place = std::copy(std::begin(numbers), std::end(numbers), place);
    }
    return place;
}

} // namespace

extern "C" {

// Four numbers a string, lowest first: Hz, where to look in cents, whether that is known (1 or 0), stiffness
// B.
double* hearing_targets() {
    return targets.data();
}
// At most 4096.
float* hearing_samples() {
    return samples.data();
}

void hearing_begin(int strings, double rate_hz) {
    listener.emplace(targets_given(strings), rate_hz);
}
void hearing_expect(int strings) {
    listener->expect(targets_given(strings));
}
void hearing_hear(int count) {
    const std::span<const float> some(samples.data(),
                                      std::min(static_cast<std::size_t>(count), most_samples));
    for (const float sample : some)
        loudest = std::max(loudest, std::abs(static_cast<double>(sample)));
    listener->hear(some);
}

// Six numbers: seconds heard, seconds since the last onset, the loudest sample since told last (1 is the most
// there is), and what sounds now: the string's place, −1 none; its cents; their sigma. Then six numbers a
// string, twice, of the last pluck or strum and of all: heard (1 or 0), Hz, cents, sigma, when in seconds,
// steady (1 or 0).
const double* hearing_told() {
    const auto live = listener->live();
    told[0] = listener->seconds();
    told[1] = listener->since_onset_s();
    told[2] = loudest;
    told[3] = live ? static_cast<double>(live->string) : -1.0;
    told[4] = live ? live->cents : 0.0;
    told[5] = live ? live->sigma_cents : 0.0;
    loudest = 0.0;
    tell(tell(&told[numbers_first], listener->latest()), listener->best());
    return told.data();
}

} // extern "C"
