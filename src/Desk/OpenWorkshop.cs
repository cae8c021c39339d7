using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Orders;
using Coldpeel.Storage;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk;

/// <summary>A workshop's folder, open for use: what the use cases of the app work on.</summary>
public sealed class OpenedWorkshop : IDisposable
{
    internal OpenedWorkshop(WorkshopStore store, TimeProvider clock) => (Store, Clock) = (store, clock);

    internal WorkshopStore Store { get; }

    internal TimeProvider Clock { get; }

    // Making a job takes all the machine has: one at a time.
    internal SemaphoreSlim Making { get; } = new(1);

    internal ShownOffers Offers { get; } = new();

    internal DraftJobs Drafts { get; } = new();

    internal ReadBooks Books { get; } = new();

    internal FrontDoor Door { get; } = new();

    // Orders of other programs on their way in: the program and its key.
    internal HashSet<(int Program, string Key)> PuttingIn { get; } = [];

    internal Lock OrderSteps { get; } = new();

    internal Lock BenchTaps { get; } = new();

    /// <summary>Tells every open screen what is said at the bench.</summary>
    public BenchFeed Bench { get; } = new();

    internal const string BroughtBackSetting = "brought-back";

    /// <summary>When a backup was last brought back, UTC; empty for never. What a screen has heard before no longer holds then.</summary>
    public string BroughtBack => Store.Rooms.Setting(BroughtBackSetting) ?? "";

    /// <summary>Whether invented orders are being made in it.</summary>
    public bool IsBeingFilled { get; set; }

    /// <summary>The address at which the app answers on this machine, once it does.</summary>
    public string? Served { get; set; }

    /// <summary>Marks it, until the mark is let go of, as open in a browser: other programs must not put another in its place.</summary>
    public IDisposable MarkServed() => ServedMark.Of(Folder);

    /// <summary>Where it stands.</summary>
    public string Folder => Store.Folder;

    /// <summary>Now.</summary>
    public DateTimeOffset Now => Clock.GetUtcNow();

    /// <summary>Today, where the workshop is.</summary>
    public DateOnly Today => DateOnly.FromDateTime(Clock.GetLocalNow().DateTime);

    /// <inheritdoc/>
    public void Dispose()
    {
        Making.Dispose();
        Store.Dispose();
    }
}

/// <summary>Opens the folder in which the app keeps everything.</summary>
public static class OpenWorkshop
{
    /// <summary>Opens it, making it where there is none.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="database">Connection string of a PostgreSQL database in the place of the SQLite file; null for none.</param>
    public static Outcome<OpenedWorkshop> Run(string folder, TimeProvider clock, string? database = null)
    {
        ArgumentNullException.ThrowIfNull(clock);
        var store = WorkshopStore.Open(folder, database, LookOfOrder.Of);
        return store.Ok ? new OpenedWorkshop(store.Value, clock) : store.Fault;
    }

    /// <summary>Where the app answers when nobody says otherwise, as the codes on the tickets have it.</summary>
    public static string UsualUrl => WorkshopBookReader.Example().AppUrl;

    /// <summary>Where the app keeps everything when nobody says otherwise.</summary>
    public static string UsualFolder =>
        Path.Combine(
            Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData,
                Environment.SpecialFolderOption.DoNotVerify
            ),
            "coldpeel"
        );
}
