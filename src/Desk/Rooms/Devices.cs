using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>What a device may do.</summary>
public enum Role
{
    /// <summary>Read, press, move stock.</summary>
    Helper,

    /// <summary>Everything.</summary>
    Owner,

    /// <summary>Another program: puts in orders and reads their state, and sees no page.</summary>
    Program,
}

/// <summary>A device that was let in.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Name">Its name.</param>
/// <param name="Role">What it may do.</param>
/// <param name="Joined">When it was let in, local time.</param>
/// <param name="Out">When it was thrown out; null while it is in.</param>
public sealed record Device(int Id, string Name, Role Role, DateTimeOffset Joined, DateTimeOffset? Out);

/// <summary>A code that lets one device in.</summary>
/// <param name="Code">Eight digits.</param>
/// <param name="Role">What the device may do.</param>
/// <param name="Until">When it ends.</param>
public sealed record JoinCode(string Code, Role Role, DateTimeOffset Until);

/// <summary>Lets devices of the network in by a short code, knows them again by a secret, and throws them out.</summary>
/// <remarks>Codes are held in memory only, one at a time, for one device, for ten minutes. Wrong codes are slowed: after
/// five the code is void, and for a minute no code is looked at.</remarks>
public sealed class Devices(OpenedWorkshop workshop)
{
    /// <summary>Longest name of a device in characters.</summary>
    public const int LongestName = 60;

    private const int MostWrong = 5;
    private static readonly TimeSpan Lasts = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan Pause = TimeSpan.FromMinutes(1);

    /// <summary>A new code; an earlier one is void.</summary>
    public JoinCode NewCode(Role role)
    {
        lock (workshop.Door)
        {
            var code = RandomNumberGenerator.GetString("0123456789", 8);
            return workshop.Door.Code = new(code, role, workshop.Now + Lasts);
        }
    }

    /// <summary>The code that is good now; null for none.</summary>
    public JoinCode? Code
    {
        get
        {
            lock (workshop.Door)
            {
                return workshop.Door.Code is { } code && code.Until > workshop.Now ? code : null;
            }
        }
    }

    /// <summary>Lets a device in for a good code: the secret it is known by from now on; null for a wrong one, or while codes are not looked at.</summary>
    public string? Join(string code, string name)
    {
        ArgumentNullException.ThrowIfNull(code);
        ArgumentNullException.ThrowIfNull(name);
        Role role;
        lock (workshop.Door)
        {
            var door = workshop.Door;
            if (workshop.Now < door.ShutUntil || door.Code is not { } good || good.Until <= workshop.Now)
            {
                return null;
            }

            // The time it takes tells nothing about how much of the code was right.
            if (!CryptographicOperations.FixedTimeEquals(Bytes(code), Bytes(good.Code)))
            {
                if (++door.Wrong >= MostWrong)
                {
                    (door.Code, door.Wrong, door.ShutUntil) = (null, 0, workshop.Now + Pause);
                }

                return null;
            }

            role = good.Role;
            (door.Code, door.Wrong) = (null, 0);
        }

        return LetIn(name, role, OwnComputer.Name);
    }

    /// <summary>Lets another program in: the key it is known by from now on, which is told only here.</summary>
    public string AddProgram(string name, string who)
    {
        ArgumentNullException.ThrowIfNull(name);
        return LetIn(name, Role.Program, who);
    }

    /// <summary>The device that knows the secret; null for none, and for one that was thrown out.</summary>
    public Device? Known(string? secret) => Find(secret) is { Role: not Role.Program } device ? device : null;

    /// <summary>The program that knows the key; null for none, and for one that was thrown out.</summary>
    public Device? KnownProgram(string? key) => Find(key) is { Role: Role.Program } program ? program : null;

    /// <summary>All devices, newest first, those thrown out too.</summary>
    public ImmutableArray<Device> All() => [.. workshop.Store.Rooms.Devices().Select(Of)];

    /// <summary>Throws a device out; its next question is not answered any more.</summary>
    public bool ThrowOut(int id, string who) => workshop.Store.Rooms.ThrowOut(id, workshop.Now, who);

    private string LetIn(string name, Role role, string who)
    {
        var secret = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));
        workshop.Store.Rooms.LetIn(Tidy(name), RoleWord(role), Hash(secret), workshop.Now, who);
        return secret;
    }

    private Device? Find(string? secret) =>
        secret is { Length: 64 } && workshop.Store.Rooms.Known(Hash(secret)) is { } device ? Of(device) : null;

    private Device Of(Coldpeel.Storage.Rooms.StoredDevice d) =>
        new(
            d.Id,
            d.Name,
            Enum.GetValues<Role>().FirstOrDefault(r => RoleWord(r) == d.Role),
            TimeZoneInfo.ConvertTime(d.Joined, workshop.Clock.LocalTimeZone),
            d.Out
        );

    private static string Tidy(string name)
    {
        var plain = string.Concat(name.Where(c => !char.IsControl(c))).Trim();
        return plain.Length == 0 ? "device" : plain[..Math.Min(plain.Length, LongestName)];
    }

    private static string RoleWord(Role role) =>
        role switch
        {
            Role.Owner => "owner",
            Role.Program => "program",
            _ => "helper",
        };

    private static string Hash(string secret) => Convert.ToHexStringLower(SHA256.HashData(Bytes(secret)));

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}

/// <summary>The code that is good now, and how many wrong ones were tried.</summary>
internal sealed class FrontDoor
{
    public JoinCode? Code { get; set; }
    public int Wrong { get; set; }
    public DateTimeOffset ShutUntil { get; set; }
}
