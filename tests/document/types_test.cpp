// The module's types of the set-up document, held to the table of fields.
#include "engine/document/fields.h"
#include "tests/support.h"

#include <map>

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::string fields_in_types(const Group& group, const std::string& margin);

// Structs that have a name of their own there; the others stand where they belong.
std::string type_of(const Group& group, const std::string& margin) {
    const std::map<const Group*, std::string> named = {
        {&group_of<StringSetup>(), "GuitarString"},  {&group_of<SpringSetup>(), "Spring"},
        {&group_of<PlacedSpring>(), "PlacedSpring"}, {&group_of<GuitarSetup>(), "Guitar"},
        {&group_of<Reading>(), "Reading"},           {&group_of<BenchSetup>(), "Bench"}};
    const auto name = named.find(&group);
    return name != named.end() ? name->second : "{\n" + fields_in_types(group, margin + "  ") + margin + "}";
}

std::string names_of(const Field& field) {
    std::string all;
    for (const std::string_view name : field.names)
        all += (all.empty() ? "\"" : " | \"") + std::string(name) + "\"";
    return all;
}

std::string type_of(const Field& field, const std::string& margin) {
    switch (field.member.kind) {
    case Kind::number:
    case Kind::whole:
        return "number";
    case Kind::flag:
        return "boolean";
    case Kind::text:
        return "string";
    case Kind::per_string:
        return "PerString";
    case Kind::numbers:
        return "number[]";
    case Kind::pair:
        return "[number, number]";
    case Kind::readings:
        return "(number | null)[]";
    case Kind::pitches:
        return "string[]";
    case Kind::choice:
        return names_of(field);
    case Kind::bases:
        return "Record<string, " + names_of(field) + ">";
    case Kind::object:
        return type_of(field.member.group(), margin);
    case Kind::objects:
        return type_of(field.member.group(), margin) + "[]";
    }
    return {};
}

std::string fields_in_types(const Group& group, const std::string& margin) {
    std::string all;
    for (const Field& field : group.fields) {
        const bool may_lack = field.member.optional || field.left_out || field.there;
        const bool may_be_null = field.member.optional && field.member.kind != Kind::whole;
        all += margin + std::string(field.key) + (may_lack ? "?: " : ": ") + type_of(field, margin) +
               (may_be_null ? " | null;\n" : ";\n");
    }
    return all;
}

} // namespace

TEST_CASE("the module's types have every field of the document, and no other") {
    const std::string types = read_file("web/module/index.d.ts");
    auto holds = [&](const std::string& name, const std::string& fields) {
        INFO("what web/module/index.d.ts should say:\nexport interface " << name << " {\n" << fields << "}");
        CHECK(types.find("export interface " + name + " {\n" + fields + "}\n") != std::string::npos);
    };
    holds("GuitarString", fields_in_types(group_of<StringSetup>(), "  "));
    holds("Spring", fields_in_types(group_of<SpringSetup>(), "  "));
    holds("PlacedSpring", fields_in_types(group_of<PlacedSpring>(), "  "));
    holds("Guitar", fields_in_types(group_of<GuitarSetup>(), "  "));
    holds("Reading", fields_in_types(group_of<Reading>(), "  "));
    holds("Bench", fields_in_types(group_of<BenchSetup>(), "  "));
    holds("Setup",
          "  format: \"" + std::string(setup_format) + "\";\n" + fields_in_types(group_of<Setup>(), "  "));
}
