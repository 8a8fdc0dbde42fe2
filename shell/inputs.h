// What is picked of a set-up in one go, wherever it is drawn: as a field in a column, or as a part of the
// sentence.
#pragma once

#include "shell/desk.h"

#include <optional>
#include <string>

namespace counterpull {

// How a pick is drawn: `choice`, or a part of the sentence. Returns the index chosen.
using DrawPick = std::optional<std::size_t> (*)(const Desk&, std::string_view id, std::string_view label,
                                                std::string_view current, const Lines& options);

// Of what is on it now, or of what is wanted.
enum class Side { now, next };
std::string_view name_of(Side side);
std::vector<StringSetup>& strings_on(Setup& setup, Side side);
std::vector<Pitch>& tuning_on(Setup& setup, Side side);
const std::vector<StringSetup>& strings_on(const Setup& setup, Side side);
const std::vector<Pitch>& tuning_on(const Setup& setup, Side side);

// `before` begins the id, so that a pick may stand at two places of a page.
void pick_bridge(const Desk& desk, DrawPick draw, std::string_view before);
void pick_scale(const Desk& desk, DrawPick draw, std::string_view before);
void pick_strings(const Desk& desk, Side side, DrawPick draw, std::string_view before);
void pick_tuning(const Desk& desk, Side side, DrawPick draw, std::string_view before);

// What strings and tunings are called: by their preset, or by their gauges and notes.
std::string name_of_set(const Desk& desk, const std::vector<StringSetup>& strings);
std::string name_of_tuning(const Desk& desk, const std::vector<Pitch>& tuning);

} // namespace counterpull
