// Listening to the strings at a place of the page: its button, and what is heard while it listens.
#pragma once

#include "engine/say/listen_for.h"
#include "shell/desk.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

// Nearer than this a string stands where it is wanted.
inline constexpr double stands_cents = 1.0;

// Strings by their places, lowest first; lists of strings may be empty.
struct ListenFor {
    std::string id;                                      // of the button
    Which tuning = Which::next;                          // that cents count against
    std::vector<double> around_cents{};                  // where each is looked for; 0 where that is empty
    std::vector<std::optional<double>> expected_cents{}; // where each is thought to be, if anybody knows
    std::vector<double> wanted_cents{};                  // where each is to go; 0 where that is empty
    std::optional<std::size_t> due{};                    // the string that is to be played
    // What is told beside the cents: how far it is to go there and which way its tuner is turned; only how
    // far, where the claw takes it there; nothing, where it is read.
    enum class Toward { aim, stop, nothing };
    Toward toward = Toward::aim;
};

// Whether strings can be listened to at all: in a browser's page, where the set-up says what they are.
bool can_listen(const Desk& desk, Which tuning);
// What was heard of a string last, now if it sounds, in cents against the tuning.
std::optional<Live> shows_now(const Hearing& hearing, std::size_t string);
// The button, why it does not listen, and while it listens the strings, each with what is still to go. True
// while it listens.
bool draw_listening(const Desk& desk, const ListenFor& wanted);
// At the end of a frame: what is listened for somewhere that is no longer on the page is listened for no
// more.
void finish_listening(ViewState& view);

} // namespace counterpull
