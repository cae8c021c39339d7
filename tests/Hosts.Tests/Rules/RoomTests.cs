using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Coldpeel.Hosts.Tests.Rules;

public sealed class RoomTests
{
    private static readonly string[] Stages = ["Artwork", "Sheets", "Press", "Wash"];

    public static TheoryData<string, string[]> MayReference =>
        new()
        {
            { "Craft", [] },
            { "Workshop", ["Craft"] },
            { "Files", ["Craft", "Workshop"] },
            { "Storage", ["Craft", "Workshop"] },
            { "Desk", ["Craft", "Files", "Storage", "Workshop"] },
            { "Web", ["Craft", "Desk", "Workshop"] },
            { "Cli", ["Craft", "Desk", "Web", "Workshop"] },
        };

    [Theory]
    [MemberData(nameof(MayReference))]
    public void A_project_references_only_what_the_house_allows(string project, string[] allowed)
    {
        var file = XDocument.Load(Path.Combine(Place.Root, "src", project, $"Coldpeel.{project}.csproj"));
        var references = file.Descendants("ProjectReference")
            .Select(r =>
                Path.GetFileNameWithoutExtension((string)r.Attribute("Include")!)
                    .Replace("Coldpeel.", "", StringComparison.Ordinal)
            );
        Assert.Empty(references.Except(allowed));
    }

    [Theory]
    [InlineData("Craft", "Google.OrTools", "Google.Protobuf")] // numerics: the constraint solver and what it is written with
    [InlineData("Workshop")]
    public void The_cores_need_no_package_but_the_guard_against_banned_calls_and_numerics(
        string project,
        params string[] numerics
    )
    {
        var file = XDocument.Load(Path.Combine(Place.Root, "src", project, $"Coldpeel.{project}.csproj"));
        var packages = file.Descendants("PackageReference").Select(r => (string)r.Attribute("Include")!);
        Assert.Empty(packages.Except(["Microsoft.CodeAnalysis.BannedApiAnalyzers", .. numerics]));
    }

    [Fact]
    public void The_crafts_never_name_one_another()
    {
        var broken =
            from stage in Stages
            from source in SourceTree.Of("Craft", stage)
            from other in Stages
            where other != stage && Names(source.Code, other)
            select $"{source.File} names {other}";
        Assert.Empty(broken);
    }

    [Fact]
    public void Geometry_and_measures_know_nothing_of_what_stands_on_them()
    {
        var broken =
            from room in new[] { "Measures", "Geometry" }
            from source in SourceTree.Of("Craft", room)
            from other in room == "Measures" ? [.. Stages, "Geometry"] : Stages
            where Names(source.Code, other)
            select $"{source.File} names {other}";
        Assert.Empty(broken);
    }

    [Fact]
    public void Press_and_wash_do_without_geometry()
    {
        var broken =
            from room in new[] { "Press", "Wash" }
            from source in SourceTree.Of("Craft", room)
            where Names(source.Code, "Geometry")
            select source.File;
        Assert.Empty(broken);
    }

    [Fact]
    public void Only_quotes_read_quotes_in_the_workshop()
    {
        var broken =
            from source in SourceTree.Of("Workshop")
            where !source.File.Contains("/Quotes/", StringComparison.Ordinal) && Names(source.Code, "Quotes")
            select source.File;
        Assert.Empty(broken);
    }

    [Theory]
    [InlineData("Web")]
    [InlineData("Cli")]
    public void The_hosts_ask_the_desk_and_never_solve_or_open_the_store_themselves(string host)
    {
        var broken =
            from source in SourceTree.Of(host)
            where Regex.IsMatch(source.Code, @"\.Solve\s*\(|\bWorkshopDb\b|Coldpeel\.(Files|Storage)\b")
            select source.File;
        Assert.Empty(broken);
    }

    [Fact]
    public void No_class_is_named_for_a_rag_bag()
    {
        var broken =
            from source in SourceTree.Of()
            from Match m in Regex.Matches(
                source.Code,
                @"\b(?:class|record|struct)\s+(\w*(?:Manager|Helper|Utils?|Service|Impl))\b"
            )
            select $"{source.File}: {m.Groups[1].Value}";
        Assert.Empty(broken);
    }

    [Fact]
    public void Nothing_is_left_for_later()
    {
        var broken =
            from file in Directory.EnumerateFiles(Path.Combine(Place.Root, "src"), "*.*", SearchOption.AllDirectories)
            where file.EndsWith(".cs", StringComparison.Ordinal) || file.EndsWith(".razor", StringComparison.Ordinal)
            where Regex.IsMatch(File.ReadAllText(file), @"\bTODO\b|\bFIXME\b|\bHACK\b|NotImplementedException")
            select file;
        Assert.Empty(broken);
    }

    // The guards themselves: a rule that catches nothing holds nothing.
    [Theory]
    [InlineData("using Coldpeel.Craft.Artwork;", true)]
    [InlineData("var p = Artwork.PlaneMaker.Make(x);", true)]
    [InlineData("Coldpeel.Craft.Artwork.WhitePlane plane;", true)]
    [InlineData("// see Artwork.PlaneMaker", false)]
    [InlineData("Say(\"Artwork.\")", false)]
    [InlineData("var myArtwork = 3; list.Artwork.Count();", false)]
    public void A_room_is_named_by_using_or_in_full_but_not_in_words(string code, bool named) =>
        Assert.Equal(named, Names(SourceTree.CodeOnly(code), "Artwork"));

    // C# finds Artwork.X from inside Coldpeel.Craft.Sheets without a using, so the bare form counts too.
    private static bool Names(string code, string room) =>
        Regex.IsMatch(
            code,
            $@"\busing\s+(static\s+)?Coldpeel\.(Craft|Workshop)\.{room}\b|\b(Craft|Workshop)\.{room}\b|(?<![\w.]){room}\.[A-Z]"
        );
}
