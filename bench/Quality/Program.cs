using System.Globalization;
using Coldpeel.Bench;
using Coldpeel.Quality;

CultureInfo.DefaultThreadCurrentCulture = CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
var options = new Options(args);
string[] families = ["strip", "gardeyn", "sheets", "jp", "few", "day", "replan", "growth"];
var asked = options.Words.Count == 0 ? families : [.. options.Words];
var use =
    $"quality [{string.Join('|', families)} ...] [--quick] [--seconds N [--processor]] [--seeds N] [--only NAME,NAME] [--out FILE]";
if (options.Help)
{
    Console.WriteLine(use);
    return 0;
}

if (asked.Except(families).Any() || options.Unknown("--seconds", "--seeds", "--only", "--out").Any())
{
    Console.Error.WriteLine(use);
    return 2;
}

var ask = new Ask(
    options.Number("--seconds", options.Quick ? 1 : 10),
    options.Whole("--seeds", 1),
    options.ByProcessor
);
var tables = new List<object>();
foreach (var family in asked)
{
    if (family == "few")
    {
        tables.Add(NestingTables.FewShapes(ask));
        continue;
    }

    var folder = family switch
    {
        "strip" or "gardeyn" => "nesting",
        "day" or "replan" => "days",
        "growth" => "sheets",
        _ => family,
    };
    if (BenchPlace.SharedData(folder) is not { } path)
    {
        tables.Add($"### {family}\n\nNot run: ../shared/data/{folder} is not on this machine.\n");
        continue;
    }

    if (family == "growth")
    {
        tables.AddRange(GrowthTable.Of(path, ask));
        continue;
    }

    var files = Instances.Of(family, path, options.Quick, options.Text("--only"));
    if (files.Length == 0)
    {
        continue;
    }

    switch (family)
    {
        case "strip" or "gardeyn":
            tables.Add(NestingTables.Strips(family, files, ask));
            break;
        case "replan":
            tables.Add(ReplanTable.Of(files, ask));
            break;
        case "day":
            tables.Add(DayTable.Makespan(files, ask));
            tables.Add(DayTable.Lateness(files, ask));
            break;
        default:
            tables.Add(NestingTables.Sheets(family, files, ask));
            break;
    }
}

Report.Put(tables, options.Text("--out"));
return 0;
