using System.ComponentModel;
using Coldpeel.Desk;
using Coldpeel.Workshop.Findings;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary>Which workshop is meant.</summary>
internal class StoreSettings : CommandSettings
{
    // A connection string holds a password: a variable keeps it out of the list of running programs.
    private const string Variable = "COLDPEEL_DATABASE";

    [CommandOption("--data <DIR>")]
    [Description("Folder in which the workshop keeps everything; a folder of your own account when left out.")]
    public string? Data { get; init; }

    [CommandOption("--database <CONNECTION>")]
    [Description(
        "A PostgreSQL database in the place of the SQLite file, like \"Host=localhost;Database=coldpeel\"; the variable COLDPEEL_DATABASE does the same."
    )]
    public string? Database { get; init; }

    public Outcome<OpenedWorkshop> Open() =>
        OpenWorkshop.Run(
            Data ?? OpenWorkshop.UsualFolder,
            TimeProvider.System,
            Database ?? Environment.GetEnvironmentVariable(Variable)
        );
}
