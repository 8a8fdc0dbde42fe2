#include "shell/hearing.h"

#include "engine/base/format.h"
#include "engine/document/json_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace counterpull {

namespace {

std::vector<double> numbers_in(std::string_view text) {
    const Json list = parse_json(text);
    std::vector<double> all;
    for (const Json& number : list)
        all.push_back(number.is_number() ? number.get<double>() : 0.0);
    return all;
}

std::vector<HeardString> strings_of(const double* at, std::size_t count) {
    std::vector<HeardString> all;
    for (std::size_t i = 0; i < count; ++i, at += 6)
        all.push_back({at[0] != 0.0, at[1], at[2], at[3], at[4], at[5] != 0.0});
    return all;
}

} // namespace

void Hearing::listen_for(std::vector<StringTarget> strings) {
    // Where only the place to look is another, what was heard still counts.
    const bool as_before =
        !strings.empty() &&
        std::equal(strings.begin(), strings.end(), targets.begin(), targets.end(),
                   [](const StringTarget& a, const StringTarget& b) { return a.hz == b.hz; });
    targets = std::move(strings);
    if (as_before)
        return;
    live.reset();
    latest.clear();
    best.clear();
    last.assign(targets.size(), {});
    taken_s.assign(targets.size(), 0.0);
    taken.assign(targets.size(), {});
}

void Hearing::begin_anew() {
    listen_for({}); // so that the strings are told anew
}

bool Hearing::any_new() const {
    for (std::size_t i = 0; i < best.size(); ++i)
        if (best[i].heard && best[i].at_s > taken_s[i])
            return true;
    return false;
}

std::vector<std::optional<double>> Hearing::take_new(const std::vector<std::optional<double>>& entered) {
    std::vector<std::optional<double>> cents(best.size());
    const double struck_s = seconds - since_onset_s;
    for (std::size_t i = 0; i < best.size(); ++i) {
        if (!best[i].heard || best[i].at_s <= taken_s[i])
            continue;
        const bool rings_on = struck_s <= taken_s[i];
        taken_s[i] = best[i].at_s;
        if (rings_on && taken[i] && i < entered.size() && entered[i] && entered[i] != taken[i])
            continue;
        taken[i] = cents[i] = std::round(10.0 * best[i].cents) / 10.0;
    }
    return cents;
}

void Hearing::take(std::string_view numbers, std::string said) {
    const std::vector<double> all = numbers_in(numbers);
    const std::size_t strings = targets.size();
    if (state == State::off || all.size() != 6 + 12 * strings)
        return;
    state = State::on;
    note = std::move(said);
    ++tellings;
    seconds = all[0];
    since_onset_s = all[1];
    live.reset();
    if (all[3] >= 0.0 && all[3] < static_cast<double>(strings))
        live = Live{static_cast<std::size_t>(all[3]), all[4], all[5]};
    latest = strings_of(&all[6], strings);
    best = strings_of(&all[6 + 6 * strings], strings);
    for (std::size_t i = 0; i < strings; ++i)
        if (latest[i].heard)
            last[i] = latest[i];
}

void Hearing::end(std::string why) {
    if (state == State::off)
        return;
    const std::string asked_by = std::exchange(place, {});
    const long told = tellings;
    *this = {};
    place = asked_by; // so that it is told there why
    note = std::move(why);
    tellings = told + 1;
}

std::string Hearing::targets_as_text() const {
    std::string text = "[";
    for (const StringTarget& target : targets)
        for (const double value :
             {target.hz, target.expected_cents, target.expected ? 1.0 : 0.0, target.inharmonicity})
            text += (text.size() > 1 ? "," : "") + shortest(value);
    return text + "]";
}

} // namespace counterpull
