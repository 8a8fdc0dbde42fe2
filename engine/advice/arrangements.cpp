#include "engine/advice/arrangements.h"

#include "engine/base/put_in_order.h"
#include "engine/mechanics/bridge.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <tuple>

namespace counterpull {

namespace {

constexpr double straight_mm = 3.0;   // a spring this little aslant is straight
constexpr double same_mm = 0.5;       // rulers see no less
constexpr std::size_t most_tried = 6; // places; a bay with more gets even spreads only

// Hooks or holes taken, ascending.
struct Places {
    std::array<int, most_springs> at{};
    std::size_t count = 0;
    void add(int place) { at[count++] = place; }
    std::size_t size() const { return count; }
    int operator[](std::size_t i) const { return at[i]; }
};

// All ways to take `count` of `places`, ascending.
std::vector<Places> subsets(std::size_t places, int count) {
    std::vector<Places> all;
    for (unsigned mask = 0; mask < (1u << places); ++mask) {
        if (std::popcount(mask) != count)
            continue;
        Places taken;
        for (int i = 0; i < static_cast<int>(places); ++i)
            if (mask & (1u << i))
                taken.add(i);
        all.push_back(taken);
    }
    return all;
}

double asymmetry_mm(const std::vector<double>& at_mm, const Places& taken) {
    double sum = 0.0;
    for (std::size_t i = 0; i < taken.size(); ++i)
        sum += std::abs(at_mm[static_cast<std::size_t>(taken[i])] +
                        at_mm[static_cast<std::size_t>(taken[taken.size() - 1 - i])]);
    return sum;
}

double steps(double mm) {
    return std::floor(mm / same_mm);
}

struct Pairing {
    Places hooks, holes;
    double splay_mm = 0.0; // the most aslant of its springs
    double asymmetry_mm = 0.0;
    double unevenness_mm = 0.0; // how far its hooks are from an even spread
};

std::vector<Pairing> pairings(const BaySetup& bay, int count) {
    const Arrangement even = evenly_placed(bay, count);
    const std::vector<Places> all_hooks = subsets(bay.hook_mm.size(), count);
    const std::vector<Places> all_holes = subsets(bay.hole_mm.size(), count);
    std::vector<Pairing> all;
    all.reserve(all_hooks.size() * all_holes.size());
    for (const Places& hooks : all_hooks)
        for (const Places& holes : all_holes) {
            Pairing pairing{hooks, holes};
            for (std::size_t i = 0; i < hooks.size(); ++i) {
                const double hook_mm = bay.hook_mm[static_cast<std::size_t>(hooks[i])];
                pairing.splay_mm = std::max(
                    pairing.splay_mm, std::abs(hook_mm - bay.hole_mm[static_cast<std::size_t>(holes[i])]));
                pairing.unevenness_mm +=
                    std::abs(hook_mm - bay.hook_mm[static_cast<std::size_t>(even[i].hook)]);
            }
            pairing.asymmetry_mm = asymmetry_mm(bay.hook_mm, hooks) + asymmetry_mm(bay.hole_mm, holes);
            all.push_back(pairing);
        }
    return all;
}

// A mix: how many springs of each kind; kind 0 is the guitar's own.
using Kind = std::optional<SpringSetup>;
struct Owned {
    Kind kind;
    int count;
};

std::vector<Owned> other_kinds(const Setup& setup) {
    std::vector<Owned> kinds;
    auto add = [&](const SpringSetup& spring, int count) {
        const auto same = std::find_if(kinds.begin(), kinds.end(),
                                       [&](const Owned& owned) { return owned.kind == spring; });
        if (same == kinds.end())
            kinds.push_back({spring, count});
        else
            same->count += count;
    };
    for (const PlacedSpring& placed : setup.now.springs)
        if (placed.spring)
            add(*placed.spring, 1);
    for (const OtherSprings& other : setup.guitar.other_springs)
        add(other.spring, other.count);
    return kinds;
}

// All mixes of `count` springs, as a list of kinds in no particular order.
void mixes(const std::vector<Owned>& others, std::size_t from, int count, std::vector<Kind> taken,
           std::vector<std::vector<Kind>>& all) {
    if (from == others.size()) {
        taken.resize(taken.size() + static_cast<std::size_t>(count)); // the rest are the guitar's own
        all.push_back(std::move(taken));
        return;
    }
    for (int n = 0; n <= std::min(count, others[from].count); ++n) {
        std::vector<Kind> more = taken;
        more.insert(more.end(), static_cast<std::size_t>(n), others[from].kind);
        mixes(others, from + 1, count - n, std::move(more), all);
    }
}

double rate_of(const Setup& setup, const Kind& kind) {
    return kind.value_or(setup.guitar.spring).rate_n_mm;
}

// Σ rate · z: what a mix pulls to one side.
double lopsidedness(const Setup& setup, const Arrangement& springs) {
    double sum = 0.0;
    for (const PlacedSpring& placed : springs)
        sum +=
            rate_of(setup, placed.spring) * setup.guitar.bay.hook_mm[static_cast<std::size_t>(placed.hook)];
    return std::abs(sum);
}

// A mix on the places of a pairing, in its order.
void put_on(const Pairing& pairing, const std::vector<Kind>& mix, Arrangement& springs) {
    springs.clear();
    for (std::size_t i = 0; i < pairing.hooks.size(); ++i)
        springs.push_back({pairing.hooks[i], pairing.holes[i], mix[i]});
}

// The mix on the places of a pairing, in the order that pulls straightest, then moves fewest.
Arrangement place(const Setup& setup, const Pairing& pairing, std::vector<Kind> mix) {
    auto before = [&](const Kind& a, const Kind& b) { return rate_of(setup, a) < rate_of(setup, b); };
    put_in_order(mix, before);
    Arrangement best;
    std::tuple<double, int> best_rank;
    do {
        Arrangement springs;
        put_on(pairing, mix, springs);
        const std::tuple<double, int> rank(std::floor(lopsidedness(setup, springs) / same_mm),
                                           springs_moved(fitted_springs(setup), springs));
        if (best.empty() || rank < best_rank) {
            best = std::move(springs);
            best_rank = rank;
        }
    } while (std::next_permutation(mix.begin(), mix.end(), before));
    return best;
}

int most_places(const BaySetup& bay) {
    return static_cast<int>(
        std::min({bay.hook_mm.size(), bay.hole_mm.size(), static_cast<std::size_t>(most_springs)}));
}

bool too_many_places(const BaySetup& bay) {
    return std::max(bay.hook_mm.size(), bay.hole_mm.size()) > most_tried;
}

Pairing even_pairing(const BaySetup& bay, int count) {
    Pairing pairing;
    for (const PlacedSpring& placed : evenly_placed(bay, count)) {
        pairing.hooks.add(placed.hook);
        pairing.holes.add(placed.hole);
    }
    return pairing;
}

// The straightest way, then the most symmetric, then the one that moves the fewest springs, then the most
// even.
const Pairing& straightest(const std::vector<Pairing>& ways, const std::vector<Kind>& mix,
                           const Arrangement& now) {
    Arrangement springs; // one for all: there are hundreds of ways
    auto rank = [&](const Pairing& pairing) {
        put_on(pairing, mix, springs);
        return std::tuple(std::max(pairing.splay_mm - straight_mm, 0.0), steps(pairing.asymmetry_mm),
                          springs_moved(now, springs), pairing.unevenness_mm);
    };
    const Pairing* best = &ways.front();
    auto best_rank = rank(*best);
    for (const Pairing& pairing : ways)
        if (const auto tried = rank(pairing); tried < best_rank) {
            best = &pairing;
            best_rank = tried;
        }
    return *best;
}

Arrangement by_hook(Arrangement springs) {
    put_in_order(springs, [](const PlacedSpring& a, const PlacedSpring& b) { return a.hook < b.hook; });
    return springs;
}

} // namespace

std::vector<Arrangement> straight_arrangements(const Setup& setup) {
    const BaySetup& bay = setup.guitar.bay;
    const std::vector<Owned> others = other_kinds(setup);
    const Arrangement now = by_hook(fitted_springs(setup));
    std::vector<Arrangement> all = {now};
    for (int count = 1; count <= most_places(bay); ++count) {
        std::vector<Pairing> ways =
            too_many_places(bay) ? std::vector{even_pairing(bay, count)} : pairings(bay, count);
        std::vector<std::vector<Kind>> kinds;
        mixes(others, 0, count, {}, kinds);
        for (const std::vector<Kind>& mix : kinds) {
            const Pairing& best = straightest(ways, mix, now);
            Arrangement springs = place(setup, best, mix);
            if (springs != now)
                all.push_back(std::move(springs));
        }
    }
    return all;
}

std::vector<Arrangement> splayed_arrangements(const Setup& setup) {
    const BaySetup& bay = setup.guitar.bay;
    std::vector<Arrangement> all;
    if (too_many_places(bay))
        return all;
    for (int count = 1; count <= most_places(bay); ++count) {
        std::vector<Pairing> ways = pairings(bay, count);
        std::erase_if(ways, [](const Pairing& pairing) {
            return pairing.splay_mm <= straight_mm || steps(pairing.asymmetry_mm) > 0.0;
        });
        put_in_order(ways, [](const Pairing& a, const Pairing& b) { return a.splay_mm < b.splay_mm; });
        for (std::size_t i = 0; i < ways.size() && i < most_splayed; ++i)
            all.push_back(place(setup, ways[i], std::vector<Kind>(static_cast<std::size_t>(count))));
    }
    return all;
}

} // namespace counterpull
