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

    /// <summary>Opens the workshop, does one thing with all of it, and says what was done.</summary>
    /// <param name="work">Answers why it cannot be done; null when it was.</param>
    /// <param name="done">What is said then.</param>
    /// <param name="mustBeThere">Whether the workshop must be there already: what is read from a folder by a slip of the pen would be an empty one.</param>
    public int Run(Func<OpenedWorkshop, Fault?> work, Func<OpenedWorkshop, string> done, bool mustBeThere = false)
    {
        if (mustBeThere && Data is not null && !Directory.Exists(Data))
        {
            return Terminal.Refuse(
                new Fault("--data", $"names “{Data}”, which is no folder.", "Name the workshop's folder.")
            );
        }

        var opened = Open();
        if (!opened.Ok)
        {
            return Terminal.Refuse(opened.Fault);
        }

        using var workshop = opened.Value;
        if (work(workshop) is { } fault)
        {
            return Terminal.Refuse(fault);
        }

        Terminal.Say(done(workshop));
        return Exit.Done;
    }

    public Outcome<OpenedWorkshop> Open() =>
        OpenWorkshop.Run(
            Data ?? OpenWorkshop.UsualFolder,
            TimeProvider.System,
            Database ?? Environment.GetEnvironmentVariable(Variable)
        );
}
